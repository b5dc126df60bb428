package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;

/** A process that makes a judge, warms it, and prints the megabytes it then holds. */
final class WarmJudge {

  private WarmJudge() {}

  public static void main(String[] arguments) {
    Conformance judge =
        new Conformance(FhirContext.forR4Cached(), GuardLimits.DEFAULT, Clock.systemUTC());
    judge.warm();
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    long held = (runtime.totalMemory() - runtime.freeMemory()) / (1024 * 1024);
    System.out.println("held " + held + (judge.profiles().definitions().isEmpty() ? "" : " MB"));
  }
}
