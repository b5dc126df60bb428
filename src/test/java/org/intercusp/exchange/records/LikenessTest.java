package org.intercusp.exchange.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.wire.Calls;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.exchange.wire.Deadline;
import org.intercusp.exchange.wire.Past;
import org.intercusp.exchange.wire.Target;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;

/** Where two resources differ is told in a report. */
class LikenessTest {

  private static final String BASE = "http://127.0.0.1/fhir";

  private final Likeness likeness =
      new Likeness(
          new Calls(
                  Clients.R4,
                  Canonicals.RESERVED,
                  new Guard(GuardLimits.DEFAULT),
                  ClientSettings.DEFAULT,
                  Clock.systemUTC())
              .to(Target.of(URI.create(BASE)), Deadline.in(Duration.ZERO), Past.READING)
              .text(),
          BASE);

  @Test
  void aLongValueIsCutBetweenCharacters() {
    List<Likeness.Gap> gaps =
        likeness.gaps(patient("x".repeat(119) + "\uD83D\uDE00y"), Map.of(), patient("y"));

    assertThat(gaps)
        .singleElement()
        .satisfies(gap -> assertThat(gap.sent()).isEqualTo("x".repeat(119) + "..."));
  }

  private static Patient patient(String family) {
    Patient patient = new Patient();
    patient.addName().setFamily(family);
    return patient;
  }
}
