package org.intercusp.summary.content;

import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.ExpectedOverjet;
import org.intercusp.analysis.stage.ScrewTurns;
import org.intercusp.measure.Length;
import org.intercusp.rules.Examination;
import org.intercusp.summary.drawing.NextTrim;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;

/**
 * The card for the next visit: what to trim, how many turns, which overjet to expect, what to ask.
 * Days and amounts are plans (common practice, no source); the expected overjet is the mean of a
 * published group: {@link ExpectedOverjet}.
 */
public final class NextVisit {

  private static final String NOT_FITTED = "no appliance is recorded as fitted";

  private final Course course;
  private final Examination examination;

  private NextVisit(Course course, Examination examination) {
    this.course = course;
    this.examination = examination;
  }

  /** The card as labels and values; empty once treatment has ended. */
  public static List<Part.Field> of(Treatment treatment, Examination examination) {
    Course course = new Course(treatment, examination.on());
    return course.ended() ? List.of() : new NextVisit(course, examination).fields();
  }

  private List<Part.Field> fields() {
    return new Lines()
        .add("When", course.nextShown())
        .add("Trim", trim())
        .add("Screw", turns())
        .add("Expected overjet", expected())
        .add("Ask about", "hours worn, soreness, eating, sport, breakage, pain in front of the ear")
        .add("Look for", lookFor())
        .part()
        .fields();
  }

  private String trim() {
    if (course.worn().isEmpty()) {
      return NOT_FITTED;
    }
    return course
        .worn()
        .flatMap(appliance -> NextTrim.of(course.treatment(), appliance, examination))
        .map(
            next ->
                next.amount().value().signum() == 0
                    ? "nothing: " + next.why()
                    : Numbers.of(next.amount())
                        + " off the occlusodistal face of each upper block, "
                        + next.why()
                        + "; never the incline")
        .orElse("no trimming planned");
  }

  private String turns() {
    Appliance appliance = course.worn().orElse(null);
    if (appliance == null) {
      return NOT_FITTED;
    }
    Appliance.Screw screw = appliance.screw();
    if (screw == null) {
      return "none";
    }
    int done = ScrewTurns.done(course.treatment(), appliance, course.on());
    int left = Math.max(0, screw.plannedTurns() - done);
    return left
        + " of "
        + screw.plannedTurns()
        + " quarter turns left, "
        + Lines.every(screw.daysPerTurn())
        + ", "
        + Numbers.of(screw.turn())
        + " each";
  }

  private String expected() {
    Reckoned<Length> expected = ExpectedOverjet.atNextVisit(course.treatment(), course.on());
    return expected
        .map(
            overjet ->
                "about " + Numbers.of(overjet) + " (mean of a published group, not a promise)")
        .result()
        .orElseGet(() -> "none: " + expected.reason());
  }

  private static String lookFor() {
    return "overjet with the jaw retruded too, tenderness on retracting, opening, posterior open"
        + " bite, fit of clasps";
  }
}
