package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.Outcome.ReportedOutcome;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.BuccalSides;
import org.intercusp.treatment.OutcomeFindings.OverbiteContact;
import org.jspecify.annotations.Nullable;

/** Outcome scorings of one invented treatment. Shares are common practice, no source. */
final class Outcomes {

  private static final List<Identifier> EXAMINERS =
      List.of(
          new Identifier("https://harbour-lane.example/staff", "S-11"),
          new Identifier("https://harbour-lane.example/staff", "S-12"));

  private final Draw draw;
  private final Mouth mouth;
  private final Course course;

  Outcomes(Draw draw, Mouth mouth, Course course) {
    this.draw = draw;
    this.mouth = mouth;
    this.course = course;
  }

  List<Outcome> all() {
    List<Outcome> outcomes = new ArrayList<>();
    if (draw.chance(0.9)) {
      outcomes.add(outcome("out-start", mouth.assessedOn, Phase.START, null));
      if (draw.chance(0.05)) {
        outcomes.add(outcome("out-start-2", mouth.assessedOn, Phase.START, "out-start"));
      }
    }
    LocalDate active = course.activeEndsOn;
    if (active != null && draw.chance(0.5)) {
      outcomes.add(outcome("out-active", active, Phase.END_ACTIVE, null));
    }
    LocalDate end = course.endsOn;
    if (end != null && draw.chance(0.85)) {
      outcomes.add(outcome("out-end", end, Phase.END, null));
    }
    if (end != null && !end.plusMonths(12).isAfter(Mouth.AS_OF) && draw.chance(0.6)) {
      outcomes.add(outcome("out-12mo", end.plusMonths(12), Phase.RETENTION_12_MONTHS, null));
    }
    return outcomes;
  }

  private Outcome outcome(String id, LocalDate on, Phase phase, @Nullable String repeatOf) {
    OutcomeFindings findings = findings(on);
    boolean scored = draw.chance(0.25);
    return new Outcome(
        id,
        on,
        phase,
        draw.pick(List.of(Outcome.Medium.values())),
        repeatOf == null ? EXAMINERS.get(0) : EXAMINERS.get(1),
        repeatOf,
        scored ? null : findings,
        scored ? new Scoring(draw).of(findings) : null,
        draw.chance(0.2) ? reported(on) : List.of());
  }

  /** Wellbeing from 0 to 64, the more the worse, better with the overjet corrected. */
  private List<ReportedOutcome> reported(LocalDate on) {
    double mean = 12 + course.path.overjet(on);
    return List.of(
        new ReportedOutcome(
            "Child oral health questionnaire",
            "short",
            draw.chance(0.8)
                ? ReportedOutcome.AnsweredBy.PATIENT
                : ReportedOutcome.AnsweredBy.CARER,
            Draw.rounded(draw.normal(mean, 6, 0, 64), 0),
            Decimal.of("0"),
            Decimal.of("64")));
  }

  private OutcomeFindings findings(LocalDate on) {
    // Where fixed braces followed, little irregularity is left.
    double done = course.path.done(on);
    double left = course.path.fixedMonths > 0 ? 1 - 0.85 * done : 1 - 0.2 * done;
    Contacts contacts = new Crowding(draw).contacts(mouth, left);
    double overjet = course.path.overjet(on);
    double overbite = course.path.overbite(on);
    double crowding = mouth.upperCrowding * left;
    return new OutcomeFindings(
        Draw.half(overjet),
        draw.chance(0.02) ? 1 : 0,
        draw.chance(0.02) ? 1 : 0,
        Draw.half(overbite),
        new Share(Draw.decimal(Math.max(0, Math.min(1.2, overbite / 8)), 2)),
        contact(overbite, overjet),
        draw.chance(0.05) ? Length.of("1.5") : Length.ZERO,
        new Share(Draw.decimal(draw.normal(0.15, 0.2, 0, 1.2), 2)),
        contacts,
        worst(contacts),
        new BuccalSides(
            buccal(course.path.molar(mouth.molarRight, on)),
            buccal(course.path.molar(mouth.molarLeft, on))),
        mouth.crossbite && done < 0.5,
        mouth.crossbite && done < 0.5 ? Draw.half(draw.between(0, 2.5)) : Length.ZERO,
        draw.chance(0.003),
        overjet > 7 ? mouth.lips() : Lips.COMPETENT,
        draw.chance(0.02),
        draw.chance(0.02),
        mouth.missing,
        List.of(),
        List.of(),
        List.of(),
        draw.chance(0.01),
        draw.chance(0.002),
        aesthetic(overjet, left),
        Draw.half(Math.max(0, crowding)),
        Draw.half(Math.max(0, -crowding)));
  }

  private OverbiteContact contact(double overbite, double overjet) {
    if (overbite < 1) {
      return OverbiteContact.NONE;
    }
    return overbite > 5 && overjet > 5
        ? draw.chance(0.05) ? OverbiteContact.TRAUMA : OverbiteContact.TISSUE
        : OverbiteContact.TOOTH;
  }

  private static Length worst(Contacts contacts) {
    Length worst = Length.ZERO;
    for (List<Contact> arch : List.of(contacts.upper(), contacts.lower())) {
      for (Contact contact : arch) {
        if (contact instanceof Contact.Displaced displaced && displaced.by().isAbove(worst)) {
          worst = displaced.by();
        }
      }
    }
    return worst;
  }

  private Buccal buccal(double molar) {
    Buccal.AnteroPosterior fit =
        molar < 1
            ? Buccal.AnteroPosterior.FULL
            : molar < 3 ? Buccal.AnteroPosterior.UNDER_HALF : Buccal.AnteroPosterior.HALF;
    Buccal.Transverse cross =
        mouth.crossbite
            ? draw.pick(List.of(Buccal.Transverse.TENDENCY, Buccal.Transverse.ONE))
            : Buccal.Transverse.NONE;
    return new Buccal(fit, draw.chance(0.05), cross);
  }

  private int aesthetic(double overjet, double left) {
    double worse = 1 + overjet * 0.55 + Math.max(0, mouth.upperCrowding) * left * 0.4;
    return (int) StrictMath.round(Math.max(1, Math.min(10, worse + draw.normal(0, 0.8, -2, 2))));
  }
}
