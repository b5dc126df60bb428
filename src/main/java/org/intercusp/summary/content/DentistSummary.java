package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.summary.drawing.OverjetChart;
import org.intercusp.summary.drawing.StageLine;
import org.intercusp.summary.wording.Codes;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Person;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** The treatment summary for the referring dentist: one page. */
public final class DentistSummary {

  private static final List<String> REFER_BACK =
      List.of(
          "At once: pain or locking of the jaw joint, injury of the incisors, allergy, a fragment"
              + " swallowed or breathed in.",
          "Within days: a broken, lost or ill-fitting appliance, an ulcer that does not heal, a"
              + " tooth that becomes loose.",
          "At the next chance: new caries, bleeding gums, less wear than agreed, overjet growing"
              + " again.");

  private final Treatment treatment;
  private final Examination examination;
  private final Course course;

  private DentistSummary(Treatment treatment, Examination examination, LocalDate on) {
    this.treatment = treatment;
    this.examination = examination;
    this.course = new Course(treatment, on);
  }

  public static Document of(Treatment treatment, Examination examination, LocalDate on) {
    return new DentistSummary(treatment, examination, on).document();
  }

  private Document document() {
    List<List<Panel>> rows = new ArrayList<>();
    HarmSigns.panel(treatment, examination).ifPresent(panel -> rows.add(List.of(panel)));
    rows.add(List.of(Panel.half("Patient", patient()), Panel.half("Diagnosis", diagnosis())));
    rows.add(
        List.of(
            Panel.half("Appliance", appliance()),
            Panel.half("What to watch", new Part.Points(new Watch(course, examination).items()))));
    rows.add(List.of(stages(), new Panel("Now and next", 2, List.of(now()))));
    rows.add(List.of(progress(), new Panel("Outcome indices", 2, List.of(outcomes()))));
    rows.add(
        List.of(
            Panel.half("When to refer back", new Part.Points(REFER_BACK)),
            Panel.half("Contacts", contacts())));
    return new Document(
        "dentist",
        "en",
        "ltr",
        "Treatment summary for the dentist",
        "Functional appliance treatment " + treatment.id() + ", as of " + course.on(),
        rows,
        Cautions.PROFESSIONAL);
  }

  private Part patient() {
    Patient patient = treatment.patient();
    int age = patient.age(course.on());
    return new Lines()
        .add("Name", Lines.name(patient.given(), patient.family()))
        .add("Born", patient.birthDate() + ", " + Unit.YEAR.behind(age))
        .add("Number", patient.identifier().value())
        .add("Sex", patient.sex())
        .part();
  }

  private Part diagnosis() {
    Diagnosis diagnosis = treatment.diagnosis();
    return new Lines()
        .add("Assessed", diagnosis.assessedOn())
        .add("Incisors", "class " + diagnosis.incisorClass().code())
        .add("Molars behind class I", sides(diagnosis.molarRelation()))
        .add(
            "Overjet, overbite",
            Numbers.of(diagnosis.overjet()) + ", " + Numbers.of(diagnosis.overbite()))
        .add("Growth stage", diagnosis.growthStage())
        .part();
  }

  private static String sides(BothSides sides) {
    return "right " + Numbers.of(sides.right()) + ", left " + Numbers.of(sides.left());
  }

  private Part appliance() {
    Optional<Appliance> shown = course.appliance();
    if (shown.isEmpty()) {
      return new Part.Words(List.of("No appliance is recorded."));
    }
    Appliance appliance = shown.orElseThrow();
    Appliance.BlockHeights heights = appliance.blockHeights();
    Lines lines =
        new Lines()
            .add("Type", appliance.type())
            .add("Fitted", fitted(appliance))
            .add("Material", appliance.material())
            .add("Alloy", appliance.alloy());
    if (heights != null) {
      lines.add(
          "Block heights",
          Numbers.of(heights.premolar())
              + " at premolars, "
              + Numbers.of(heights.molar())
              + " at molars");
    }
    if (appliance.inclineAngle() != null) {
      lines.add("Incline", appliance.inclineAngle());
    }
    return lines.part();
  }

  private String fitted(Appliance appliance) {
    return course
        .worn()
        .map(worn -> String.valueOf(worn.fittedOn()))
        .orElseGet(() -> Lines.NOT_RECORDED + "; ordered " + appliance.orderedOn());
  }

  private Panel stages() {
    return new Panel(
        "Stages",
        4,
        List.of(picture(StageLine.svg(treatment, course.on()), "No stage has a date yet.")));
  }

  private Panel progress() {
    return new Panel(
        "Progress",
        4,
        List.of(
            picture(
                OverjetChart.svg(treatment, course.on()),
                "No review of the active stage yet, so no rate.")));
  }

  private static Part picture(Optional<String> svg, String otherwise) {
    return svg.<Part>map(Part.Picture::new).orElseGet(() -> new Part.Words(List.of(otherwise)));
  }

  private Part now() {
    Lines lines = new Lines();
    Completion completion = treatment.completion();
    if (course.ended() && completion != null) {
      lines
          .add("Treatment", completion.status())
          .where("Reason", completion.reason() == null ? null : Codes.words(completion.reason()))
          .add("Last attended", completion.lastAttendedOn());
    } else if (course.notYetFitted() && course.stage().isEmpty()) {
      lines.add("Stage", "not begun: no appliance is fitted");
    } else {
      Optional<Stage> stage = course.stage();
      lines
          .add("Stage", stage.map(each -> Codes.words(each.kind())).orElse(null))
          .add("Wear asked for", wear(stage.map(Stage::wearHours).orElse(null)));
    }
    last(lines);
    return lines.add("Next review", course.nextShown()).part();
  }

  /** The family's sheet says to ask before the appliance goes in again; this one agrees. */
  private @Nullable String wear(@Nullable HoursPerDay asked) {
    if (examination.harmUnanswered()) {
      return "paused until the clinic has answered the sign of harm";
    }
    return asked == null ? null : Numbers.of(asked);
  }

  private void last(Lines lines) {
    Optional<Review> last = course.lastReview();
    if (last.isEmpty()) {
      lines.add("Last review", "none yet");
      return;
    }
    Review review = last.orElseThrow();
    lines
        .add("Last review", review.date())
        .add(
            "Overjet, overbite",
            Numbers.of(review.overjet()) + ", " + Numbers.of(review.overbite()))
        .add("Molars behind class I", sides(review.molarRelation()));
  }

  /** The indices of the last scoring, with the change where it is not the first. */
  private Part outcomes() {
    Optional<Outcome> scored =
        treatment.outcomes().stream()
            .filter(each -> each.repeatOf() == null && !each.date().isAfter(course.on()))
            .reduce((first, second) -> second.date().isBefore(first.date()) ? first : second);
    if (scored.isEmpty()) {
      return new Part.Words(List.of("Not scored yet."));
    }
    Outcome outcome = scored.orElseThrow();
    return new Lines()
        .add("Scored", Codes.words(outcome.phase()) + ", " + outcome.date())
        .add("PAR (UK weights)", figure(outcome, "par-uk"))
        .where("PAR reduction", known(outcome, "par-uk-reduction-percent"))
        .add("Dental health (IOTN)", figure(outcome, "dental-health-component"))
        .add("ICON", figure(outcome, "icon"))
        .part();
  }

  private @Nullable String known(Outcome outcome, String name) {
    String shown = figure(outcome, name);
    return shown.isEmpty() ? null : shown;
  }

  private String figure(Outcome outcome, String name) {
    return examination.figures().stream()
        .filter(each -> each.subject().equals(outcome.id()) && each.name().equals(name))
        .findFirst()
        .map(DentistSummary::shown)
        .orElse("");
  }

  private static String shown(Figure figure) {
    Value value = figure.value();
    return value == null ? "" : value.shown(figure.unit());
  }

  private Part contacts() {
    Person referrer = treatment.referrer();
    return new Lines()
        .organisation("Clinic", "Contact", treatment.clinic())
        .person("Orthodontist", treatment.clinician(), treatment.clinic())
        .add("Referred by", referrer == null ? null : Lines.name(referrer))
        .part();
  }
}
