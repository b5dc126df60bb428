package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.bundle.OutcomeBundleIntake;
import org.intercusp.registry.bundle.OutcomeBundles;
import org.intercusp.registry.intake.OutcomeInbox;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The registry, put together the same way for every door. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(RegistrySettings.class)
class RegistryWiring {

  @Bean
  RegistryPlace registryPlace(RegistrySettings settings, RoomSettings rooms) {
    return settings.place(rooms.data());
  }

  @Bean
  OutcomeIntake outcomeIntake(RegistryPlace place, Clock clock) {
    return new OutcomeIntake(place, clock);
  }

  @Bean
  OutcomeInbox outcomeInbox(OutcomeIntake intake, RegistrySettings settings) {
    return new OutcomeInbox(intake, settings.largestSubmission().toBytes());
  }

  @Bean
  OutcomeBundles outcomeBundles(FhirContext context, Canonicals canonicals, Clock clock) {
    return new OutcomeBundles(context, canonicals, clock);
  }

  @Bean
  OutcomeBundleIntake outcomeBundleIntake(OutcomeBundles bundles, OutcomeIntake intake) {
    return new OutcomeBundleIntake(bundles, intake);
  }
}
