package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.ZoneId;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.conformance.OutcomeText;
import org.intercusp.conformance.Outcomes;
import org.intercusp.exchange.authorization.PublishedKeys;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.Dispatch;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.records.Retrieval;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.TreatmentText;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.rule.Limits;
import org.intercusp.summary.Summaries;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.treatment.sheet.SheetColumns;
import org.intercusp.treatment.sheet.SheetMerge;
import org.intercusp.treatment.sheet.SheetReader;
import org.springframework.boot.autoconfigure.ImportAutoConfiguration;
import org.springframework.boot.autoconfigure.ssl.SslAutoConfiguration;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.ssl.SslBundles;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The rooms that need no database, put together the same way for every door. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties({RoomSettings.class, RecipientSettings.class, ClientSettings.class})
// Commands run without the rest of Spring Boot, and send with certificates all the same.
@ImportAutoConfiguration(SslAutoConfiguration.class)
class RoomWiring {

  @Bean
  Clock clock() {
    return Clock.system(ZoneId.systemDefault());
  }

  @Bean
  TreatmentReader treatmentReader() {
    return new TreatmentReader();
  }

  @Bean
  TreatmentWriter treatmentWriter() {
    return new TreatmentWriter();
  }

  @Bean
  SheetReader sheetReader() {
    return new SheetReader(new SheetColumns());
  }

  @Bean
  SheetMerge sheetMerge(TreatmentReader reader, TreatmentWriter writer) {
    return new SheetMerge(reader, writer);
  }

  @Bean
  Limits limits(RoomSettings settings) {
    return Limits.named(settings.limits());
  }

  @Bean
  Examiner examiner(Limits limits) {
    return new Examiner(limits);
  }

  @Bean
  Canonicals canonicals(RoomSettings settings) {
    return new Canonicals(settings.canonicalBase());
  }

  @Bean
  TreatmentMapper treatmentMapper(Canonicals canonicals) {
    return new TreatmentMapper(canonicals);
  }

  @Bean
  FhirContext fhirContext() {
    return FhirContext.forR4Cached();
  }

  @Bean
  TreatmentText treatmentText(FhirContext context, TreatmentMapper mapper) {
    return new TreatmentText(context, mapper);
  }

  @Bean
  Guard guard() {
    return new Guard(GuardLimits.DEFAULT);
  }

  @Bean
  Conformance conformance(
      FhirContext context, Canonicals canonicals, Examiner examiner, Clock clock) {
    return new Conformance(context, canonicals, GuardLimits.DEFAULT, examiner, clock);
  }

  @Bean
  Outcomes outcomes(Canonicals canonicals) {
    return new Outcomes(canonicals.base());
  }

  @Bean
  OutcomeText outcomeText(FhirContext context, Outcomes outcomes) {
    return new OutcomeText(context, outcomes);
  }

  @Bean
  Summaries summaries(FhirContext context, TreatmentMapper mapper, Examiner examiner) {
    return new Summaries(context, mapper, examiner);
  }

  @Bean
  RecordsClient recordsClient(
      FhirContext context,
      Canonicals canonicals,
      Guard guard,
      ClientSettings settings,
      Clock clock) {
    return new RecordsClient(context, canonicals, guard, settings, clock);
  }

  @Bean
  Recipients recipients(RecipientSettings settings, SslBundles bundles) {
    return settings.named(bundles);
  }

  @Bean
  PublishedKeys publishedKeys(Recipients recipients) {
    return PublishedKeys.of(RecipientSettings.keys(recipients));
  }

  @Bean
  Dispatch dispatch(TreatmentMapper mapper, Conformance conformance, RecordsClient client) {
    return new Dispatch(mapper, conformance, client);
  }

  @Bean
  Retrieval retrieval(RecordsClient client, TreatmentMapper mapper) {
    return new Retrieval(client, mapper);
  }
}
