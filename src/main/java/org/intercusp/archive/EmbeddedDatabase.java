package org.intercusp.archive;

import java.sql.DatabaseMetaData;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.support.JdbcUtils;
import org.springframework.jdbc.support.MetaDataAccessException;

/** Tells a database in a file of our own from a server that others may have open too. */
public final class EmbeddedDatabase {

  private EmbeddedDatabase() {}

  /** Whether the database is a file that no second process can have open. */
  public static boolean isFile(DataSource database) {
    try {
      return isFile(JdbcUtils.extractDatabaseMetaData(database, DatabaseMetaData::getURL));
    } catch (MetaDataAccessException e) {
      return false;
    }
  }

  static boolean isFile(@Nullable String url) {
    return url != null
        && url.startsWith("jdbc:h2:")
        && !url.startsWith("jdbc:h2:mem:")
        && !url.startsWith("jdbc:h2:tcp:")
        && !url.startsWith("jdbc:h2:ssl:");
  }
}
