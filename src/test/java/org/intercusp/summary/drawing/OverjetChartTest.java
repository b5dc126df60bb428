package org.intercusp.summary.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;

/** What the chart of the overjet says, and that it can be read. */
class OverjetChartTest {

  private static final LocalDate ON = LocalDate.parse("2026-07-20");

  @Test
  void theChartSaysRateIntervalAndProjection() throws Exception {
    Drawn drawn = new Drawn(OverjetChart.svg(SampleTreatments.base(), ON).orElseThrow());
    assertThat(drawn.words())
        .contains("Overjet shrinks by 0.75 mm a month (95 % 0.68 to 0.82)")
        .anyMatch(words -> words.startsWith("At this rate the goal of 2 mm is reached 2026-10-"));
    assertThat(OverjetChart.svg(SampleTreatments.changed("{\"/reviews\": []}"), ON)).isEmpty();
  }

  @Test
  void valuesOfVisitsCloseTogetherDoNotLieOnEachOther() throws Exception {
    Treatment slow =
        ((ReadResult.Accepted)
                new TreatmentReader()
                    .read(
                        Files.readAllBytes(
                            Path.of("sample-bundles/slow-progress-doubtful-wear.treatment.json"))))
            .treatment();
    List<Element> values =
        new Drawn(OverjetChart.svg(slow, LocalDate.parse("2026-06-22")).orElseThrow())
            .elements().stream()
                .filter(e -> e.getTagName().equals("text"))
                .filter(e -> e.getAttribute("text-anchor").equals("start"))
                .filter(e -> e.getTextContent().matches("[0-9.]+"))
                .toList();
    assertThat(values).extracting(Element::getTextContent).first().isEqualTo("8.5");
    for (Element one : values) {
      assertThat(values)
          .filteredOn(other -> apart(one, other, "x") < 5 && apart(one, other, "y") < 2)
          .containsExactly(one);
    }
  }

  /** What came back after the active stage is what a dentist looks for: it is drawn, not fitted. */
  @Test
  void overjetsAfterTheActiveStageAreShownBesideItsRate() throws Exception {
    Treatment back =
        SampleTreatments.changed(
            """
            {"/reviews/3/stageId": "S3", "/reviews/3/overjet": 6.6,
             "/stages/0/goals/0/target": 7}""");
    Drawn drawn = new Drawn(OverjetChart.svg(back, ON).orElseThrow());
    assertThat(drawn.words())
        .contains("6.6")
        .anyMatch(words -> words.startsWith("In the active stage the overjet shrank by "))
        .noneMatch(words -> words.startsWith("Overjet shrinks"))
        .contains("Goal of 7 mm reached");
    assertThat(drawn.first("desc")).contains("Later 6.6 mm on 2026-07-13.");
    assertThat(
            drawn.elements().stream()
                .filter(each -> each.getTagName().equals("circle"))
                .filter(each -> each.getAttribute("fill").equals(Ink.NONE)))
        .hasSize(1);
    assertThat(drawn.outside()).isEmpty();
  }

  @Test
  void onceTreatmentHasEndedTheRateIsOfThePast() throws Exception {
    Treatment stopped =
        SampleTreatments.changed(
            """
            {"/completion": {"status": "patient-stopped", "decidedOn": "2026-07-19",
             "lastAttendedOn": "2026-07-13"}}""");
    assertThat(new Drawn(OverjetChart.svg(stopped, ON.plusYears(2)).orElseThrow()).words())
        .anyMatch(words -> words.startsWith("In the active stage the overjet shrank by "));
  }

  @Test
  void aGoalThatWasLostAgainIsNotCalledReached() throws Exception {
    Treatment lost =
        SampleTreatments.changed(
            """
            {"/reviews/3/stageId": "S3", "/reviews/3/overjet": 11.5,
             "/stages/0/goals/0/target": 7}""");
    Drawn drawn = new Drawn(OverjetChart.svg(lost, ON).orElseThrow());
    assertThat(drawn.words())
        .contains("Goal of 7 mm was reached in the active stage; 11.5 mm on 2026-07-13");
    assertThat(drawn.outside()).isEmpty();
  }

  /** A visit a few days ago: its value is read beside the line of the day it is. */
  @ParameterizedTest
  @ValueSource(ints = {0, 2, 4, 7, 10, 20})
  void noValueLiesOnTheDayItIs(int days) throws Exception {
    LocalDate on = LocalDate.parse("2026-07-13").plusDays(days);
    Drawn drawn = new Drawn(OverjetChart.svg(SampleTreatments.base(), on).orElseThrow());
    Element value =
        drawn.elements().stream()
            .filter(e -> e.getTagName().equals("text") && e.getTextContent().equals("4.5"))
            .findFirst()
            .orElseThrow();
    Element today =
        drawn.elements().stream()
            .filter(e -> e.getTagName().equals("line"))
            .filter(e -> e.getAttribute("x1").equals(e.getAttribute("x2")))
            .filter(e -> !e.getAttribute("stroke-dasharray").equals("none"))
            .findFirst()
            .orElseThrow();
    double width = 0.6 * 3 * at(value, "font-size");
    boolean left = value.getAttribute("text-anchor").equals("end");
    double start = at(value, "x") - (left ? width : 0);
    assertThat(at(today, "x1")).matches(x -> x < start || x > start + width);
  }

  /** From the start at its goal, and an overjet that runs along it: its label has a place. */
  @ParameterizedTest
  @ValueSource(strings = {"2", "4.5", "5", "7", "8", "8.5", "9"})
  void theGoalIsWrittenOnNoLineAndNoValue(String goal) throws Exception {
    Treatment treatment = SampleTreatments.changed("{\"/stages/0/goals/0/target\": " + goal + "}");
    Drawn drawn = new Drawn(OverjetChart.svg(treatment, ON).orElseThrow());
    Element label =
        drawn.elements().stream()
            .filter(e -> e.getTagName().equals("text"))
            .filter(e -> e.getTextContent().startsWith("goal "))
            .findFirst()
            .orElseThrow();
    assertThat(label.getTextContent()).isEqualTo("goal " + goal + " mm");
    double x = Double.parseDouble(label.getAttribute("x"));
    double y = Double.parseDouble(label.getAttribute("y"));
    double size = Double.parseDouble(label.getAttribute("font-size"));
    Rectangle2D box =
        new Rectangle2D.Double(
            x, y - 0.7 * size, 0.5 * size * label.getTextContent().length(), 0.7 * size);
    for (Element each : drawn.elements()) {
      if (each.getTagName().equals("line")) {
        assertThat(
                box.intersectsLine(at(each, "x1"), at(each, "y1"), at(each, "x2"), at(each, "y2")))
            .as("line at " + at(each, "x1"))
            .isFalse();
      } else if (each.getTagName().equals("circle")) {
        assertThat(box.contains(at(each, "cx"), at(each, "cy"))).as("a point").isFalse();
      }
    }
  }

  private static double at(Element each, String name) {
    return Double.parseDouble(each.getAttribute(name));
  }

  private static double apart(Element one, Element other, String axis) {
    return Math.abs(
        Double.parseDouble(one.getAttribute(axis)) - Double.parseDouble(other.getAttribute(axis)));
  }
}
