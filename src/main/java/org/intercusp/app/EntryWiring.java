package org.intercusp.app;

import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Intake;
import org.intercusp.rules.Examiner;
import org.intercusp.web.pages.entry.Entries;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the entry forms of the pages need. */
@Configuration(proxyBeanMethods = false)
class EntryWiring {

  @Bean
  Entries entries(
      DataSource database,
      TreatmentArchive archive,
      Deliveries deliveries,
      Examiner examiner,
      Clock clock) {
    Intake intake = new Intake(database, archive, deliveries);
    return new Entries(examiner, intake, clock);
  }
}
