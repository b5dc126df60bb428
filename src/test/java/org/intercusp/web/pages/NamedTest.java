package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.exchange.records.Beyond;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What was deleted is decided on by people, who do not know resources by their types and ids. */
class NamedTest {

  @ParameterizedTest
  @CsvSource({
    "CarePlan/1339, HL-1/plan, Treatment plan: plan (CarePlan/1339)",
    "Observation/1341, HL-1/overjet/rev-2, Measurement: overjet rev-2 (Observation/1341)",
    "Appointment/9, HL-1/next-review/rev-1, Appointment: next review rev-1 (Appointment/9)",
    "Patient/2, P-10533, Patient: P-10533 (Patient/2)"
  })
  void saysWhatItIsBeforeWhereItWas(String address, String identifier, String words) {
    assertThat(Named.of(new Beyond(address, identifier), "HL-1")).isEqualToIgnoringCase(words);
  }
}
