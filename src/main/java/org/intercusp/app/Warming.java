package org.intercusp.app;

import org.intercusp.conformance.Conformance;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.stereotype.Component;

/** Loads the validator's definitions beside the start, so that the first delivery need not wait. */
@Component
class Warming implements ApplicationRunner {

  private final Conformance conformance;

  Warming(Conformance conformance) {
    this.conformance = conformance;
  }

  @Override
  public void run(ApplicationArguments words) {
    Thread warming = new Thread(conformance::warm, "warming");
    warming.setDaemon(true);
    warming.start();
  }
}
