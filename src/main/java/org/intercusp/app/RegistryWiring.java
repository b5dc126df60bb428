package org.intercusp.app;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.bundle.OutcomeBundleIntake;
import org.intercusp.registry.bundle.OutcomeBundles;
import org.intercusp.registry.intake.OutcomeInbox;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.intake.SubmissionWitness;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.sql.init.dependency.DependsOnDatabaseInitialization;
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

  /** A command has no database, and so nobody who keeps a record of submissions. */
  @Bean
  OutcomeIntake outcomeIntake(
      RegistryPlace place, Clock clock, ObjectProvider<SubmissionWitness> witness) {
    return new OutcomeIntake(place, clock, witness.getIfAvailable(() -> SubmissionWitness.NONE));
  }

  // What waits from before is loaded at once, which leaves records.
  @Bean
  @DependsOnDatabaseInitialization
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
