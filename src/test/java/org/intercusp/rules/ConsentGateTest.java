package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Optional;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.ConsentScope;
import org.junit.jupiter.api.Test;

class ConsentGateTest {

  private static final LocalDate DAY = LocalDate.of(2026, 7, 20);

  @Test
  void consentThatCoversTheRecipientLetsItPass() {
    for (ConsentScope scope : ConsentScope.values()) {
      assertThat(gate("{}", scope)).isEmpty();
    }
  }

  @Test
  void everythingElseIsRefused() {
    refused("{\"/patient/consent\": null}", "no consent is recorded");
    refused("{\"/patient/consent/given\": false}", "refused");
    refused("{\"/patient/consent/scope\": [\"registry\"]}", "does not cover");
    refused("{\"/patient/consent/withdrawnOn\": \"2026-07-20\"}", "withdrawn on 2026-07-20");
    refused("{\"/patient/consent/recordedOn\": \"2026-07-21\"}", "only on 2026-07-21");
  }

  @Test
  void aWithdrawalCountsFromItsDay() {
    assertThat(gate("{\"/patient/consent/withdrawnOn\": \"2026-07-21\"}", ConsentScope.HOSPITAL))
        .isEmpty();
  }

  @Test
  void withoutARecipientThereIsNothingToRefuse() {
    Examination examination =
        new Examiner().examine(SampleTreatments.changed("{\"/patient/consent\": null}"), DAY);
    assertThat(examination.findings())
        .noneMatch(judged -> judged.finding().severity() == Severity.REFUSED);
  }

  private static void refused(String changes, String says) {
    Finding finding = gate(changes, ConsentScope.HOSPITAL).orElseThrow();
    assertThat(finding.code()).isEqualTo("consent-missing");
    assertThat(finding.severity()).isEqualTo(Severity.REFUSED);
    assertThat(finding.message()).contains(says);
    assertThat(new Judged(finding, null).stops()).isTrue();
  }

  private static Optional<Finding> gate(String changes, ConsentScope scope) {
    return new ConsentGate().check(SampleTreatments.changed(changes), scope, DAY);
  }
}
