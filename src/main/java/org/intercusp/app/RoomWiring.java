package org.intercusp.app;

import java.time.Clock;
import java.time.ZoneId;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.annotation.Lazy;

/** The rooms that need no database, put together the same way for every door. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(RoomSettings.class)
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
  @Lazy
  Guard guard() {
    return new Guard(GuardLimits.DEFAULT);
  }
}
