package org.intercusp.app;

import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.report.Reports;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The registry's report, put together the same way for every door. */
@Configuration(proxyBeanMethods = false)
class ReportWiring {

  @Bean
  Reports reports(RegistryPlace place) {
    return Reports.over(place.root().resolve("cases"), place.reduction().months());
  }
}
