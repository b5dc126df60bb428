package org.intercusp.app;

import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.StoringAndQueueing;
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
    StoringAndQueueing storing = new StoringAndQueueing(database, archive, deliveries);
    return new Entries(examiner, storing, clock);
  }
}
