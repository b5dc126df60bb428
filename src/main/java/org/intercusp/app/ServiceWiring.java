package org.intercusp.app;

import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The rooms of the service: what keeps and sends. */
@Configuration(proxyBeanMethods = false)
class ServiceWiring {

  @Bean
  TreatmentArchive treatmentArchive(DataSource database, Clock clock) {
    return new TreatmentArchive(database, clock);
  }

  @Bean
  Lookup lookup(TreatmentArchive archive) {
    return new Lookup(archive);
  }

  @Bean
  Intake intake(
      TreatmentReader reader,
      TreatmentWriter writer,
      Examiner examiner,
      TreatmentArchive archive,
      Clock clock) {
    return new Intake(reader, writer, examiner, archive, clock);
  }
}
