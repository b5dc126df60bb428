package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Map;
import javax.sql.DataSource;
import org.intercusp.archive.AwayOrBusy;
import org.intercusp.archive.DatabaseTrouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.autoconfigure.ImportAutoConfiguration;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.jdbc.autoconfigure.DataSourceAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.context.support.GenericApplicationContext;
import org.springframework.core.env.MapPropertySource;

/** Which database is used, and how long it is waited for. */
class DatabaseSettingsTest {

  @Test
  void oneThatIsAwayIsTakenForAwayLongBeforeOneThatIsBusy(@TempDir Path folder) throws Exception {
    try (ConfigurableApplicationContext service = service(folder)) {
      DataSource database = service.getBean(DataSource.class);
      assertThat(database).isInstanceOf(AwayOrBusy.class);
      assertThat(database.unwrap(HikariDataSource.class).getConnectionTimeout()).isEqualTo(5_000);
    }
  }

  @Test
  @DisabledOnOs(value = OS.WINDOWS, disabledReason = "an open file cannot be taken away there")
  void nothingIsTakenWithoutItsFile(@TempDir Path folder) throws Exception {
    try (ConfigurableApplicationContext service = service(folder)) {
      DataSource database = service.getBean(DataSource.class);
      database.getConnection().close();
      Files.delete(folder.resolve("intercusp.mv.db"));
      assertThat(DatabaseTrouble.in(assertThrows(SQLException.class, database::getConnection)))
          .contains(DatabaseTrouble.UNREACHED);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "jdbc:", "jdbc:mysql://host/secret", "postgres://host/secret"})
  void aDatabaseThatCannotBeUsedIsAWrongSetting(String address) {
    IllegalArgumentException fault =
        assertThrows(IllegalArgumentException.class, () -> initialize(address));
    assertThat(fault)
        .hasMessageStartingWith("spring.datasource.url ")
        .hasMessageContaining(address.isBlank() ? "is empty" : "names no database that can be used")
        .hasMessageNotContaining("secret");
  }

  @ParameterizedTest
  @CsvSource({"jdbc:postgresql://host/name", "'jdbc:h2:async:${intercusp.data}/x'"})
  void theTwoThereAreAreTaken(String address) {
    initialize(address);
  }

  private static ConfigurableApplicationContext service(Path folder) {
    return new SpringApplicationBuilder(Pool.class)
        .web(WebApplicationType.NONE)
        .run("--intercusp.data=" + folder);
  }

  private static void initialize(String address) {
    try (GenericApplicationContext context = new GenericApplicationContext()) {
      context
          .getEnvironment()
          .getPropertySources()
          .addFirst(
              new MapPropertySource(
                  "set", Map.of("spring.datasource.url", address, "intercusp.data", "there")));
      new DatabaseAddress().initialize(context);
    }
  }

  @Configuration(proxyBeanMethods = false)
  @ImportAutoConfiguration(DataSourceAutoConfiguration.class)
  @Import(DatabaseWiring.class)
  static class Pool {}
}
