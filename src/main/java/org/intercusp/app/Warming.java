package org.intercusp.app;

import org.intercusp.archive.TreatmentArchive;
import org.intercusp.conformance.Conformance;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;
import org.springframework.stereotype.Component;

/**
 * Loads the validator's definitions beside the start, so that the first delivery need not wait, and
 * files what an older version stored. The service is alive before, and ready after.
 */
@Component
class Warming implements ApplicationRunner, HealthIndicator {

  private static final Logger LOG = LoggerFactory.getLogger(Warming.class);

  private final Conformance conformance;
  private final TreatmentArchive archive;
  private volatile boolean warm;

  Warming(Conformance conformance, TreatmentArchive archive) {
    this.conformance = conformance;
    this.archive = archive;
  }

  @Override
  public void run(ApplicationArguments words) {
    Thread warming = new Thread(this::warm, "warming");
    warming.setDaemon(true);
    warming.start();
  }

  private void warm() {
    try {
      fileAndWarm();
    } catch (RuntimeException e) {
      LOG.error("Not ready, and will not be before the next start: {}", FaultPlace.of(e));
    }
  }

  private void fileAndWarm() {
    int failed = archive.fileAll();
    if (failed > 0) {
      LOG.error("{} stored treatments or resources could not be filed for search", failed);
    }
    conformance.warm();
    warm = true;
  }

  @Override
  public Health health() {
    return (warm ? Health.up() : Health.outOfService()).build();
  }
}
