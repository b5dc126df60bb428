package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import javax.sql.DataSource;
import org.intercusp.archive.DatabaseTrouble;
import org.intercusp.archive.Databases;
import org.intercusp.archive.ScarceDisk;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.autoconfigure.ImportAutoConfiguration;
import org.springframework.boot.autoconfigure.availability.ApplicationAvailabilityAutoConfiguration;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.health.actuate.endpoint.HealthEndpoint;
import org.springframework.boot.health.actuate.endpoint.IndicatedHealthDescriptor;
import org.springframework.boot.health.autoconfigure.actuate.endpoint.AvailabilityProbesAutoConfiguration;
import org.springframework.boot.health.autoconfigure.actuate.endpoint.HealthEndpointAutoConfiguration;
import org.springframework.boot.health.autoconfigure.application.AvailabilityHealthContributorAutoConfiguration;
import org.springframework.boot.health.autoconfigure.application.DiskSpaceHealthContributorAutoConfiguration;
import org.springframework.boot.health.autoconfigure.contributor.HealthContributorAutoConfiguration;
import org.springframework.boot.health.autoconfigure.registry.HealthContributorRegistryAutoConfiguration;
import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;
import org.springframework.boot.health.contributor.Status;
import org.springframework.boot.jdbc.autoconfigure.health.DataSourceHealthContributorAutoConfiguration;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/** Who asks whether the service can work is told of its database and its disk, by its settings. */
class ReadinessTest {

  @TempDir static Path folder;

  @AfterEach
  void room() {
    ScarceDisk.full(false);
  }

  @Test
  void isNotReadyWithoutADatabaseAndReadyAgainWithOne() throws Exception {
    try (ConfigurableApplicationContext service = service()) {
      assertThat(asked(service, "readiness")).isEqualTo(Status.UP);

      ScarceDisk.full(true);
      close(service.getBean(DataSource.class));
      assertThat(asked(service, "readiness")).isEqualTo(Status.DOWN);
      assertThat(asked(service, "liveness")).isEqualTo(Status.UP);

      ScarceDisk.full(false);
      assertThat(asked(service, "readiness")).isEqualTo(Status.UP);
    }
  }

  @Test
  void isNotReadyWithoutRoomInTheDataDirectory() {
    try (ConfigurableApplicationContext service =
        service("--management.health.diskspace.threshold=100000TB")) {
      assertThat(asked(service, "readiness")).isEqualTo(Status.DOWN);
      assertThat(asked(service, "liveness")).isEqualTo(Status.UP);
      IndicatedHealthDescriptor disk =
          (IndicatedHealthDescriptor)
              service.getBean(HealthEndpoint.class).healthForPath("readiness", "diskSpace");
      assertThat(disk.getDetails()).containsEntry("path", data().toString());
    }
  }

  @Test
  void aDatabaseThatDoesNotAnswerIsWaitedForNoLongerThanThePatience() throws Exception {
    AtomicInteger questions = new AtomicInteger();
    try (HikariDataSource busy = Databases.file(folder.resolve("busy"));
        DatabaseHealth health =
            new DatabaseHealth(counted(busy, questions), Duration.ofMillis(300))) {
      List<Connection> all = new ArrayList<>();
      for (int i = 0; i < busy.getMaximumPoolSize(); i++) {
        all.add(busy.getConnection());
      }
      assertThat(health.health().getStatus()).isEqualTo(Status.DOWN);
      assertThat(health.health().getStatus()).isEqualTo(Status.DOWN);
      for (Connection one : all) {
        one.close();
      }
      long deadline = System.nanoTime() + Duration.ofSeconds(20).toNanos();
      while (!health.health().getStatus().equals(Status.UP) && System.nanoTime() < deadline) {
        Thread.sleep(20);
      }
      int answered = questions.get();
      assertThat(health.health().getStatus()).isEqualTo(Status.UP);
      assertThat(answered).as("who asked meanwhile waited for one question").isLessThanOrEqualTo(2);
    }
  }

  private static DataSource counted(DataSource database, AtomicInteger questions) {
    return new DelegatingDataSource(database) {
      @Override
      public Connection getConnection() throws SQLException {
        questions.incrementAndGet();
        return super.getConnection();
      }
    };
  }

  private static Path data() {
    return folder.resolve("data").toAbsolutePath();
  }

  private static Status asked(ConfigurableApplicationContext service, String group) {
    return service.getBean(HealthEndpoint.class).healthForPath(group).getStatus();
  }

  /** As a full disk does; what is closed is not opened again before there is room. */
  private static void close(DataSource database) {
    try (Connection connection = database.getConnection();
        var statement = connection.createStatement()) {
      statement.execute("shutdown immediately");
    } catch (SQLException e) {
      assertThat(DatabaseTrouble.in(e)).isPresent();
    }
  }

  /** With the service's own settings, and of its parts those that are asked. */
  private static ConfigurableApplicationContext service(String... settings) {
    String[] all = new String[settings.length + 1];
    all[0] = "--intercusp.data=" + data();
    System.arraycopy(settings, 0, all, 1, settings.length);
    return new SpringApplicationBuilder(Parts.class).web(WebApplicationType.NONE).run(all);
  }

  @Configuration(proxyBeanMethods = false)
  @Import(DatabaseHealth.class)
  @ImportAutoConfiguration({
    HealthContributorAutoConfiguration.class,
    HealthContributorRegistryAutoConfiguration.class,
    HealthEndpointAutoConfiguration.class,
    ApplicationAvailabilityAutoConfiguration.class,
    AvailabilityHealthContributorAutoConfiguration.class,
    AvailabilityProbesAutoConfiguration.class,
    DiskSpaceHealthContributorAutoConfiguration.class,
    DataSourceHealthContributorAutoConfiguration.class
  })
  static class Parts {

    @Bean
    HikariDataSource database() throws java.io.IOException {
      Files.createDirectories(data());
      HikariDataSource database = ScarceDisk.database(data().resolve("kept"));
      database.setConnectionTimeout(2_000);
      return database;
    }

    @Bean
    HealthIndicator warming() {
      return () -> Health.up().build();
    }
  }
}
