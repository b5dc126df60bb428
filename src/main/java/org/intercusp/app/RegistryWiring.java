package org.intercusp.app;

import java.nio.file.Path;
import java.time.Clock;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.env.Environment;

/** The registry, put together the same way for every door. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(RegistrySettings.class)
class RegistryWiring {

  @Bean
  RegistryPlace registryPlace(RegistrySettings settings, Environment environment) {
    return settings.place(Path.of(environment.getRequiredProperty("intercusp.data")));
  }

  @Bean
  OutcomeIntake outcomeIntake(RegistryPlace place, Clock clock) {
    return new OutcomeIntake(place, clock);
  }
}
