package org.intercusp.exchange;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.Duration;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.fhir.Canonicals;

/** Clients of the tests, less patient than the real one. */
public final class Clients {

  public static final FhirContext R4 = FhirContext.forR4Cached();

  private Clients() {}

  public static ClientSettings settings(Duration deadline) {
    return new ClientSettings(
        Duration.ofSeconds(2),
        deadline,
        2_500_000,
        4,
        Duration.ofMillis(20),
        Duration.ofMillis(200),
        Duration.ofSeconds(3),
        50);
  }

  public static RecordsClient within(Duration deadline) {
    return with(settings(deadline));
  }

  public static RecordsClient with(ClientSettings settings) {
    return with(settings, Clock.systemUTC());
  }

  public static RecordsClient at(Clock clock) {
    return with(settings(Duration.ofSeconds(30)), clock);
  }

  private static RecordsClient with(ClientSettings settings, Clock clock) {
    return new RecordsClient(
        R4, Canonicals.RESERVED, new Guard(GuardLimits.DEFAULT), settings, clock);
  }
}
