package org.intercusp.summary.content;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/** The sheet for patient and carer, in plain words. */
public final class PatientSheet {

  /** From so many hours a day an appliance is worn all the time: common practice, no source. */
  private static final BigDecimal FULL_TIME = BigDecimal.valueOf(18);

  private static final List<String> ADVICE =
      List.of("in", "eat", "clean", "sport", "talk", "sore", "keep", "broken");

  private final Treatment treatment;
  private final Course course;
  private final PatientTexts texts;

  private PatientSheet(Treatment treatment, LocalDate on, Locale language) {
    this.treatment = treatment;
    this.course = new Course(treatment, on);
    this.texts = PatientTexts.in(language);
  }

  public static Document of(Treatment treatment, LocalDate on, Locale language) {
    return new PatientSheet(treatment, on, language).document();
  }

  private Document document() {
    List<List<Panel>> rows = new ArrayList<>();
    rows.add(
        List.of(
            Panel.half(texts.text("about"), about()),
            Panel.half(texts.text("wear"), new Part.Points(wear()))));
    for (int i = 0; i < ADVICE.size(); i += 2) {
      rows.add(List.of(advice(ADVICE.get(i)), advice(ADVICE.get(i + 1))));
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
    return Panel.half(texts.text(key), new Part.Points(texts.all(key)));
  }

  private Part about() {
    return new Lines()
        .add(texts.text("about.name"), name())
        .add(texts.text("about.brace"), brace())
        .add(texts.text("about.wear"), hours())
        .add(texts.text("about.next"), next())
        .add(texts.text("about.clinic"), Lines.name(treatment.clinic()))
        .part();
  }

  private String brace() {
    return texts.text(
        "brace." + course.appliance().map(Appliance::type).map(type -> type.code()).orElse("none"));
  }

  private Optional<HoursPerDay> worn() {
    return course.stage().map(Stage::wearHours);
  }

  private String hours() {
    return worn()
        .map(hours -> texts.text("about.wear.hours", Numbers.of(hours.value())))
        .orElseGet(() -> texts.text("about.wear.ask"));
  }

  private List<String> wear() {
    if (worn().isEmpty()) {
      return texts.all("wear.ask");
    }
    BigDecimal hours = worn().orElseThrow().value();
    if (hours.compareTo(FULL_TIME) >= 0) {
      return texts.all("wear.full");
    }
    List<String> part = new ArrayList<>(texts.all("wear.part"));
    part.set(0, texts.text("wear.part.1", Numbers.of(hours)));
    return part;
  }

  /** The day alone, which every language reads the same. */
  private String next() {
    Optional<NextReview> next = course.next();
    return next.map(
            due ->
                due.from().equals(due.by())
                    ? due.by().toString()
                    : due.from() + " \u2013 " + due.by())
        .orElseGet(() -> texts.text("about.next.none"));
  }
}
