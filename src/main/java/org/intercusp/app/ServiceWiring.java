package org.intercusp.app;

import io.micrometer.core.instrument.MeterRegistry;
import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.archive.Expression;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.conformance.Conformance;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.courier.DeliveryMeters;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.custody.ClinicExport;
import org.intercusp.exchange.custody.ClinicImport;
import org.intercusp.exchange.custody.Erasure;
import org.intercusp.exchange.custody.RetentionSettings;
import org.intercusp.exchange.proposal.PollSettings;
import org.intercusp.exchange.proposal.Poller;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.web.api.Intake;
import org.intercusp.web.api.Lookup;
import org.intercusp.worklist.Upkeep;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The rooms of the service: what keeps and sends. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties({
  DeliverySettings.class,
  RetentionSettings.class,
  PollSettings.class
})
class ServiceWiring {

  @Bean
  TreatmentArchive treatmentArchive(
      DataSource database, AuditTrail trail, Clock clock, Expression expression, Upkeep upkeep) {
    return TreatmentArchive.filing(database, trail, clock, expression, upkeep);
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
      StoringAndQueueing storing,
      Clock clock) {
    return new Intake(reader, writer, examiner, storing, clock);
  }

  @Bean
  Gate gate(
      TreatmentReader reader,
      Examiner examiner,
      TreatmentMapper mapper,
      Conformance conformance,
      Clock clock) {
    return new Gate(reader, examiner, mapper, conformance, clock);
  }

  @Bean
  Deliveries deliveries(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Gate gate,
      AuditTrail trail,
      Clock clock) {
    return new Deliveries(database, archive, recipients, gate, trail, clock);
  }

  @Bean
  Erasure erasure(
      DataSource database,
      TreatmentArchive archive,
      TreatmentReader reader,
      RetentionSettings retention,
      Clock clock) {
    return new Erasure(database, archive, reader, retention, clock);
  }

  @Bean
  ClinicExport clinicExport(DataSource database, AuditTrail trail, Clock clock) {
    return new ClinicExport(database, trail, clock);
  }

  @Bean
  ClinicImport clinicImport(DataSource database, AuditTrail trail) {
    return new ClinicImport(database, trail);
  }

  @Bean
  DeliveryMeters deliveryMeters(
      MeterRegistry registry, DataSource database, Recipients recipients, Clock clock) {
    return new DeliveryMeters(registry, database, recipients, clock);
  }

  @Bean(initMethod = "start", destroyMethod = "close")
  @DependsOnDatabaseInitialization
  Clockwork clockwork(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Gate gate,
      RecordsClient client,
      DeliverySettings settings,
      AuditTrail trail,
      DeliveryMeters meters,
      Clock clock,
      Poller poller) {
    Clockwork.Sending sending = new Clockwork.Sending(archive, recipients, gate, client);
    return Clockwork.of(database, sending, settings, clock)
        .audited(trail)
        .metered(meters)
        .polling(poller)
        .build();
  }

  @Bean
  Poller poller(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      RecordsClient client,
      TreatmentMapper mapper,
      PollSettings settings,
      AuditTrail trail,
      Clock clock) {
    return new Poller(database, archive, recipients, client, mapper, settings, trail, clock);
  }

  @Bean
  Proposals proposals(
      DataSource database,
      TreatmentArchive archive,
      Deliveries deliveries,
      AuditTrail trail,
      Clock clock) {
    return new Proposals(database, archive, deliveries, trail, clock);
  }
}
