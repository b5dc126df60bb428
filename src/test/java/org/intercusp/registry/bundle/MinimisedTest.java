package org.intercusp.registry.bundle;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.fhir.Canonicals;
import org.intercusp.measure.Length;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.CourseStatus;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What of a treatment file goes to a registry. */
class MinimisedTest {

  private static final LocalDate ON = LocalDate.of(2026, 10, 30);
  private static final Identifier SUBMITTER = new Identifier("https://a.example/s", "one");

  private static Optional<Submission> of(Treatment treatment) {
    return Minimised.of(treatment, SUBMITTER, treatment.id(), 1, ON);
  }

  @Test
  void whereTheFileDoesNotSayHowItStandsAYearOfSilenceDoes() {
    Treatment silent =
        new TreatmentGenerator()
            .treatments(400, 77)
            .filter(each -> each.completion() == null && !each.reviews().isEmpty())
            .filter(each -> of(each).map(record -> record.course() != null).orElse(false))
            .findFirst()
            .orElseThrow();
    LocalDate last =
        silent.reviews().stream()
            .flatMap(each -> Stream.of(each.date(), each.nextReviewOn()))
            .filter(Objects::nonNull)
            .max(Comparator.naturalOrder())
            .orElseThrow();
    Submission within = on(silent, last.plusMonths(12));
    assertThat(within.course().status()).isEqualTo(CourseStatus.IN_TREATMENT);
    Submission after = on(silent, last.plusMonths(12).plusDays(1));
    assertThat(after.course().status()).isEqualTo(CourseStatus.UNKNOWN);
    assertThat(after.course().decidedOn()).isNull();
    assertThat(after.course().lastAttendedOn()).isEqualTo(within.course().lastAttendedOn());
    // Told by FHIR as by the record, and read back as it was.
    Clock then =
        Clock.fixed(last.plusMonths(13).atStartOfDay(ZoneOffset.UTC).toInstant(), ZoneOffset.UTC);
    OutcomeBundles bundles =
        new OutcomeBundles(FhirContext.forR4Cached(), Canonicals.RESERVED, then);
    Bundle bundle = bundles.toBundle(after);
    assertThat(bundles.fromBundle(bundle)).isEqualTo(new ReadSubmission.Accepted(after));
    // Another reason why it is absent is not that nobody knows.
    bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .flatMap(each -> ((Observation) each).getComponent().stream())
        .filter(Observation.ObservationComponentComponent::hasDataAbsentReason)
        .forEach(part -> part.getDataAbsentReason().getCodingFirstRep().setCode("masked"));
    assertThat(bundles.fromBundle(bundle)).isInstanceOf(ReadSubmission.Refused.class);
  }

  private static Submission on(Treatment treatment, LocalDate day) {
    return Minimised.of(treatment, SUBMITTER, treatment.id(), 1, day).orElseThrow();
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

  @Test
  void ofTwoScoringsOfADayTheLaterOfTheFileStandsAsInRulesAndFigures() {
    Treatment scored =
        new TreatmentGenerator()
            .treatments(200, 77)
            .filter(each -> of(each).map(record -> record.course() != null).orElse(false))
            .filter(each -> !each.outcomes().isEmpty() && each.outcomes().get(0).findings() != null)
            .findFirst()
            .orElseThrow();
    assertThat(startOverjet(scored)).isNotEqualTo(Length.of("19"));
    JsonMapper json = new JsonMapper();
    ObjectNode file = (ObjectNode) json.readTree(new TreatmentWriter().write(scored));
    ObjectNode again = (ObjectNode) file.at("/outcomes/0").deepCopy();
    again.put("id", "later");
    ((ObjectNode) again.path("findings")).put("overjet", 19);
    ((ArrayNode) file.path("outcomes")).insert(1, again);
    ReadResult read = new TreatmentReader().read(json.writeValueAsBytes(file));
    assertThat(startOverjet(((ReadResult.Accepted) read).treatment())).isEqualTo(Length.of("19"));
  }

  private static @Nullable Length startOverjet(Treatment treatment) {
    Course.Assessment start = of(treatment).orElseThrow().course().assessments().get(0);
    assertThat(start.phase()).isEqualTo(Outcome.Phase.START);
    return start.overjet();
  }
}
