package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.ScrewTurns;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.rules.Examination;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/** The sheet for patient and carer, in plain words. */
public final class PatientSheet {

  private static final List<String> ADVICE =
      List.of("in", "eat", "clean", "sport", "talk", "sore", "keep", "broken");

  /**
   * What holds for a brace that is not worn: the rest tells how to wear it or calls pain normal.
   */
  private static final List<String> ADVICE_UNWORN = List.of("clean", "keep");

  private final Treatment treatment;
  private final Course course;
  private final Wearing wearing;
  private final Limits limits;
  private final PatientTexts texts;

  private PatientSheet(
      Treatment treatment, Examination examination, LocalDate on, Locale language) {
    this.treatment = treatment;
    this.course = new Course(treatment, on);
    this.wearing = Wearing.of(course, examination);
    this.limits = examination.limits();
    this.texts = PatientTexts.in(language);
  }

  public static Document of(
      Treatment treatment, Examination examination, LocalDate on, Locale language) {
    return new PatientSheet(treatment, examination, on, language).document();
  }

  private Document document() {
    List<List<Panel>> rows = new ArrayList<>();
    rows.add(
        List.of(
            Panel.half(texts.text("about"), about()),
            Panel.half(texts.text("wear"), new Part.Points(wear()))));
    List<String> advice = wearing.goesOn() ? ADVICE : ADVICE_UNWORN;
    for (int i = 0; i < advice.size(); i += 2) {
      rows.add(List.of(advice(advice.get(i)), advice(advice.get(i + 1))));
    }
    rows.add(
        List.of(
            advice("phone"),
            Panel.half(texts.text("urgent"), new Part.Alarm(texts.all("urgent")))));
    return new Document(
        "patient",
        texts.language(),
        texts.text("direction"),
        texts.text("title"),
        texts.text("subtitle", name()),
        rows,
        texts.all("caution"));
  }

  private String name() {
    Patient patient = treatment.patient();
    return Lines.name(patient.given(), patient.family());
  }

  private Panel advice(String key) {
    boolean without = key.equals("eat") && nightsAlone();
    return Panel.half(texts.text(key), new Part.Points(texts.all(without ? "eat.without" : key)));
  }

  /** Who wears a brace at night takes it out to eat (common practice, no source). */
  private boolean nightsAlone() {
    return asked()
        .map(hours -> !hours.isAbove(limits.hours(Limit.WEAR_RETENTION_MOST)))
        .orElseGet(
            () ->
                course
                    .appliance()
                    .filter(each -> each.type() == ApplianceType.RETAINER)
                    .isPresent());
  }

  private Part about() {
    return new Lines()
        .add(texts.text("about.name"), name())
        .add(texts.text("about.brace"), brace())
        .add(texts.text("about.wear"), hours())
        .add(texts.text("about.next"), next())
        .organisation(
            texts.text(wearing == Wearing.MOVED ? "about.clinic.moved" : "about.clinic"),
            texts.text("about.reach"),
            treatment.clinic())
        .add(texts.text("about.day"), texts.day(course.on()))
        .part();
  }

  private String brace() {
    Optional<String> brace =
        course.appliance().map(Appliance::type).map(type -> texts.text("brace." + type.code()));
    return brace
        .map(words -> course.notYetFitted() ? texts.text("brace.ordered", words) : words)
        .orElseGet(() -> texts.text("brace.none"));
  }

  private boolean asPlanned() {
    return wearing == Wearing.AS_PLANNED;
  }

  private Optional<HoursPerDay> asked() {
    return course
        .stage()
        .filter(stage -> asPlanned())
        .map(Stage::wearHours)
        .filter(hours -> hours.isAbove(HoursPerDay.ZERO));
  }

  private String hours() {
    return asked()
        .map(hours -> texts.text("about.wear.hours", texts.number(hours.value())))
        .orElseGet(() -> texts.text("about.wear.ask"));
  }

  private List<String> wear() {
    List<String> wear = new ArrayList<>(hoursInWords());
    screw().ifPresent(wear::add);
    return wear;
  }

  /** The family turns the screw at home; how far it was turned meanwhile nobody has told yet. */
  private Optional<String> screw() {
    Appliance worn = course.worn().orElse(null);
    Appliance.Screw screw = worn == null ? null : worn.screw();
    if (!asPlanned() || worn == null || screw == null) {
      return Optional.empty();
    }
    if (ScrewTurns.done(treatment, worn, course.on()) >= screw.plannedTurns()) {
      return Optional.empty();
    }
    return Optional.of(
        screw.daysPerTurn() == 1
            ? texts.text("wear.screw.daily.1")
            : texts.text("wear.screw.1", String.valueOf(screw.daysPerTurn())));
  }

  /** Full time and nights alone are what the rule for the wear of a stage calls so. */
  private List<String> hoursInWords() {
    if (!asPlanned()) {
      return texts.all("wear." + wearing.key());
    }
    if (asked().isEmpty()) {
      return texts.all("wear.ask");
    }
    HoursPerDay hours = asked().orElseThrow();
    if (hours.isAbove(limits.hours(Limit.WEAR_FULL_TIME))) {
      return texts.all("wear.full");
    }
    String band = hours.isAbove(limits.hours(Limit.WEAR_RETENTION_MOST)) ? "wear.day" : "wear.part";
    List<String> part = new ArrayList<>(texts.all(band));
    part.set(0, texts.text(band + ".1", texts.number(hours.value())));
    return part;
  }

  /** The day with its month in words: a family reads no dates of figures alone. */
  private String next() {
    Optional<NextReview> next = course.next();
    return next.map(
            due ->
                course.isPast(due)
                    ? texts.text("about.next.past", texts.day(due.by()))
                    : due.from().equals(due.by())
                        ? texts.day(due.by())
                        : texts.day(due.from()) + " \u2013 " + texts.day(due.by()))
        .orElseGet(() -> texts.text("about.next.none"));
  }
}
