package org.intercusp.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import org.intercusp.treatment.Identifier;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The three columns by which every table names a treatment ({@code clinic_system}, {@code
 * clinic_value}, {@code treatment_id}), and their parameters in statements ({@code :system}, {@code
 * :clinic}, {@code :treatment}).
 */
public final class KeyColumns {

  /** The condition that a row is of the treatment, where one table is asked and has no alias. */
  public static final String ARE_GIVEN =
      "clinic_system = :system and clinic_value = :clinic and treatment_id = :treatment";

  private KeyColumns() {}

  /** The same for a table with an alias. */
  public static String areGiven(String alias) {
    return alias
        + ".clinic_system = :system and "
        + alias
        + ".clinic_value = :clinic and "
        + alias
        + ".treatment_id = :treatment";
  }

  /** Gives a statement the three parameters. */
  public static JdbcClient.StatementSpec bind(
      JdbcClient.StatementSpec statement, TreatmentKey key) {
    return statement
        .param("system", key.clinic().system())
        .param("clinic", key.clinic().value())
        .param("treatment", key.treatment());
  }

  /** The key in a row that has the three columns under their own names. */
  public static TreatmentKey read(ResultSet row) throws SQLException {
    return new TreatmentKey(
        new Identifier(row.getString("clinic_system"), row.getString("clinic_value")),
        row.getString("treatment_id"));
  }
}
