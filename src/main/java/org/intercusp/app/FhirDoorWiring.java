package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.Expression;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.TreatmentReader;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What the FHIR door needs besides the rooms that every door has. */
@Configuration(proxyBeanMethods = false)
class FhirDoorWiring {

  @Bean
  Expression expression(
      TreatmentReader reader,
      Examiner examiner,
      TreatmentMapper mapper,
      FhirContext context,
      Clock clock) {
    return new Expressing(reader, examiner, mapper, context, clock);
  }

  @Bean
  ResourceIndex resourceIndex(DataSource database, AuditTrail trail) {
    return new ResourceIndex(database, trail);
  }

  @Bean
  StoringAndQueueing storingAndQueueing(
      DataSource database, TreatmentArchive archive, Deliveries deliveries) {
    return new StoringAndQueueing(database, archive, deliveries);
  }
}
