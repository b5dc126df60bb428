package org.intercusp.web.pages;

import java.util.List;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * A treatment at a glance.
 *
 * @param drawing SVG of its latest construction bite, where it has one
 */
public record Card(
    String id,
    String title,
    String clinic,
    String summary,
    List<FindingView> findings,
    @Nullable String drawing) {

  static Card of(Treatment treatment, Examination examination) {
    List<Bite> bites = treatment.bites();
    return new Card(
        treatment.id(),
        treatment.id() + ", " + name(treatment.patient()),
        treatment.clinic().name(),
        summary(treatment),
        FindingView.of(examination),
        bites.isEmpty() ? null : BitePicture.of(treatment, bites.get(bites.size() - 1)));
  }

  private static String name(Patient patient) {
    return String.join(" ", patient.given()) + " " + patient.family();
  }

  private static String summary(Treatment treatment) {
    Diagnosis diagnosis = treatment.diagnosis();
    return "Born %s. Class %s, overjet %s mm, overbite %s mm at assessment on %s. %d review(s)."
        .formatted(
            treatment.patient().birthDate(),
            diagnosis.incisorClass().code(),
            diagnosis.overjet().value().toPlainString(),
            diagnosis.overbite().value().toPlainString(),
            diagnosis.assessedOn(),
            treatment.reviews().size());
  }
}
