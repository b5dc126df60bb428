package org.intercusp.app;

import java.nio.file.Path;
import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.audit.AuditTrail;
import org.intercusp.bulk.ExportSettings;
import org.intercusp.bulk.Exporting;
import org.intercusp.bulk.Exports;
import org.intercusp.bulk.Lines;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Exports of many resources: who asks for them, and who works them off. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(ExportSettings.class)
class ExportWiring {

  private final Path files;

  ExportWiring(@Value("${intercusp.data}") Path data) {
    this.files = data.resolve("exports");
  }

  @Bean
  Exports exports(DataSource database, AuditTrail trail, ExportSettings settings, Clock clock) {
    return new Exports(database, trail, files, settings, clock);
  }

  @Bean(initMethod = "start", destroyMethod = "close")
  @DependsOnDatabaseInitialization
  Exporting exporting(
      DataSource database,
      ResourceIndex index,
      Lines lines,
      AuditTrail trail,
      ExportSettings settings,
      Clock clock) {
    return new Exporting(database, index, lines, trail, files, settings, clock);
  }
}
