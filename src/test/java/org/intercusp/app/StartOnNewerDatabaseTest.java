package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Path;
import org.intercusp.archive.Databases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.autoconfigure.ImportAutoConfiguration;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.flyway.autoconfigure.FlywayAutoConfiguration;
import org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration;
import org.springframework.context.annotation.Configuration;
import org.springframework.jdbc.core.simple.JdbcClient;

/** An older program writes nothing into tables it does not know. */
class StartOnNewerDatabaseTest {

  @TempDir Path folder;

  @Test
  void aDatabaseOfALaterVersionIsRefused() {
    try (HikariDataSource kept = Databases.file(folder.resolve("intercusp"))) {
      assertThat(
              JdbcClient.create(kept)
                  .sql(
                      """
                      insert into "flyway_schema_history"
                        select 1000, '999', 'later', 'SQL', 'V999__later.sql', 1, 'x', "installed_on", 1, true
                        from "flyway_schema_history" where "version" = '1'
                      """)
                  .update())
          .isEqualTo(1);
    }
    SpringApplicationBuilder older =
        new SpringApplicationBuilder(Migrations.class).web(WebApplicationType.NONE);
    RuntimeException fault =
        assertThrows(
            RuntimeException.class,
            () ->
                older.run("--intercusp.data=" + folder, "--spring.datasource.username=sa").close());
    assertThat(StartOnBadDiskTest.told(fault))
        .isEqualTo(
            "Not started: the database was last opened by a newer version of this program; start"
                + " that one, or bring a backup of before into another data directory (settings"
                + " --upgrading)");
  }

  @Configuration(proxyBeanMethods = false)
  @ImportAutoConfiguration({DataSourceAutoConfiguration.class, FlywayAutoConfiguration.class})
  static class Migrations {}
}
