package org.intercusp.app;

import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.worklist.Upkeep;
import org.intercusp.worklist.Worklist;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.event.EventListener;

/** The list of treatments and what keeps it true. */
@Configuration(proxyBeanMethods = false)
class WorklistWiring {

  private final TreatmentArchive archive;

  WorklistWiring(TreatmentArchive archive) {
    this.archive = archive;
  }

  /** What keeps the list true, in a configuration of its own: the archive is made with it. */
  @Configuration(proxyBeanMethods = false)
  static class Keeping {

    @Bean(destroyMethod = "close")
    Upkeep upkeep(
        DataSource database,
        CurrentCaller callers,
        TreatmentReader reader,
        Limits limits,
        Clock clock) {
      return new Upkeep(database, callers, reader, limits, clock);
    }
  }

  @Bean
  Worklist worklist(
      DataSource database, AuditTrail trail, Upkeep upkeep, Limits limits, Clock clock) {
    return new Worklist(database, trail, upkeep, limits, clock);
  }

  @EventListener
  void ready(ApplicationReadyEvent event) {
    event.getApplicationContext().getBean(Upkeep.class).start(archive);
  }
}
