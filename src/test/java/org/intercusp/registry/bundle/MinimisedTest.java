package org.intercusp.registry.bundle;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.junit.jupiter.api.Test;

/** What of a treatment file goes to a registry. */
class MinimisedTest {

  private static final LocalDate ON = LocalDate.of(2026, 10, 30);
  private static final Identifier SUBMITTER = new Identifier("https://a.example/s", "one");

  private static Optional<Submission> of(Treatment treatment) {
    return Minimised.of(treatment, SUBMITTER, treatment.id(), 1, ON);
  }

  @Test
  void everyRecordIsInOrderAndNamesNobody() {
    List<Treatment> treatments = new TreatmentGenerator().treatments(400, 77).toList();
    int made = 0;
    int withdrawn = 0;
    for (Treatment treatment : treatments) {
      Consent consent = treatment.patient().consent();
      boolean covered =
          consent != null && consent.given() && consent.scope().contains(ConsentScope.REGISTRY);
      Optional<Submission> record = of(treatment);
      assertThat(record.isPresent()).isEqualTo(covered);
      if (record.isPresent()) {
        made++;
        withdrawn += record.get().kind() == Submission.Kind.WITHDRAWAL ? 1 : 0;
        byte[] line = new SubmissionWriter().write(record.get());
        assertThat(new SubmissionReader().read(line, ON))
            .isEqualTo(new ReadSubmission.Accepted(record.get()));
        assertThat(new String(line, UTF_8))
            .doesNotContain(treatment.patient().family(), treatment.clinician().family());
      }
    }
    assertThat(made).isGreaterThan(250);
    assertThat(withdrawn).isBetween(1, 20);
  }
}
