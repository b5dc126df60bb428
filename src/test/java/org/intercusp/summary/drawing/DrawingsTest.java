package org.intercusp.summary.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Element;

class DrawingsTest {

  private static final LocalDate ON = LocalDate.parse("2026-07-20");
  private static final Share MOST = Share.of("0.70");

  static List<String> all(Treatment treatment) {
    List<String> drawings = new ArrayList<>();
    treatment
        .bites()
        .forEach(bite -> drawings.add(BiteDrawing.svg(new BiteView(bite, 5.0, true, MOST))));
    treatment
        .bites()
        .forEach(b -> drawings.add(BiteDrawing.svg(new BiteView(b, null, false, MOST))));
    treatment
        .appliances()
        .forEach(
            each -> {
              BlockView.of(treatment, each, new Examiner().examine(treatment, ON).figures())
                  .ifPresent(v -> drawings.add(BlockDrawing.svg(v)));
              drawings.add(TeethChart.svg(treatment.diagnosis().teethPresent(), each));
            });
    drawings.add(TeethChart.svg("plain", treatment.diagnosis().teethPresent()));
    StageLine.svg(treatment, ON).ifPresent(drawings::add);
    OverjetChart.svg(treatment, ON).ifPresent(drawings::add);
    treatment.films().forEach(film -> FilmTracing.svg(film, List.of()).ifPresent(drawings::add));
    return drawings;
  }

  private static void holds(String svg) throws Exception {
    Drawn drawn = new Drawn(svg);
    assertThat(drawn.outside()).isEmpty();
    assertThat(drawn.attribute("role")).isEqualTo("img");
    assertThat(drawn.first("title")).isNotBlank();
    assertThat(drawn.first("desc")).isNotBlank();
    for (String id : drawn.attribute("aria-labelledby").split(" ")) {
      assertThat(svg).contains("id=\"" + id + "\"");
    }
    for (Element each : drawn.elements()) {
      assertThat(each.getTagName())
          .isIn("svg", "g", "title", "desc", "path", "line", "circle", "text");
      for (int i = 0; i < each.getAttributes().getLength(); i++) {
        String name = each.getAttributes().item(i).getNodeName();
        assertThat(name).isNotEqualTo("style").doesNotStartWith("on").doesNotContain("href");
      }
    }
    assertThat(Double.parseDouble(drawn.attribute("width").replace("mm", "")))
        .isLessThanOrEqualTo(180);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{}",
        "{\"/bites/0/overjetHabitual\": 20, \"/bites/0/overbiteHabitual\": -20}",
        "{\"/bites/0/overjetHabitual\": -20, \"/bites/0/incisalClearance\": 20}",
        "{\"/bites/0/maximumReading\": -20}",
        "{\"/bites/0/retrudedReading\": null, \"/bites/0/upperIncisorHeight\": 20}",
        "{\"/appliances/0/blockHeights\": {\"premolar\": 0, \"molar\": 20}}",
        "{\"/appliances/0/blockHeights\": {\"premolar\": 20, \"molar\": 0},"
            + " \"/appliances/0/inclineAngle\": 90}",
        "{\"/appliances/0/blockHeights\": null, \"/bites/0/premolarClearance\": null}",
        "{\"/appliances/0/inclineAngle\": null, \"/appliances/0/clasps\": []}",
        "{\"/diagnosis/teethPresent\": []}",
        "{\"/diagnosis/teethPresent\": [\"53\", \"13\", \"18\", \"28\", \"38\", \"48\"]}",
        "{\"/reviews\": []}",
        "{\"/stages/0/startsOn\": \"1990-01-01\"}",
        "{\"/stages/0/months\": 60, \"/stages/2/months\": 60}",
        "{\"/reviews/0/overjet\": -20, \"/reviews/1/overjet\": 20}",
        "{\"/bites\": [], \"/appliances\": [], \"/stages\": [], \"/reviews\": []}"
      })
  void staysOnThePaper(String changes) throws Exception {
    List<String> drawings = all(SampleTreatments.changed(changes));
    assertThat(drawings).isNotEmpty();
    for (String svg : drawings) {
      holds(svg);
    }
  }

  @Test
  void namesNeverBecomeMarkup() throws Exception {
    String hostile = "\"><script>alert(1)</script>\u202E\u0001";
    String svg =
        Svg.drawing(
            hostile,
            50,
            20,
            hostile,
            hostile,
            each -> each.text(new Spot(1, 5), "start", hostile.repeat(10)));
    assertThat(svg).doesNotContain("<script").doesNotContain("\u202E").doesNotContain("\u0001");
    holds(svg);
    assertThat(new Drawn(svg).first("text")).contains("\"><script>alert(1)</script>");
  }

  @Test
  void sixtyReviewsStayOnThePaper() throws Exception {
    StringBuilder reviews = new StringBuilder("{\"/reviews\": [");
    for (int i = 0; i < 60; i++) {
      reviews.append(i == 0 ? "" : ",").append(review(i));
    }
    for (String svg : all(SampleTreatments.changed(reviews.append("]}").toString()))) {
      holds(svg);
    }
  }

  private static String review(int number) {
    return "{\"id\": \"R"
        + number
        + "\", \"date\": \""
        + LocalDate.parse("2026-03-01").plusDays(2L * number)
        + "\", \"stageId\": \"S1\", \"seenBy\": \"A\", \"kind\": \"planned\", \"overjet\": "
        + (8 - number / 10.0)
        + ", \"overbite\": 3, \"molarRelation\": {\"right\": 1, \"left\": 1}}";
  }

  @Test
  void theBiteSaysItsNumbers() throws Exception {
    Treatment base = SampleTreatments.base();
    Drawn drawn = new Drawn(BiteDrawing.svg(new BiteView(base.bites().get(0), 5.5, false, MOST)));
    assertThat(drawn.words())
        .contains("overjet 8 mm", "overbite 4 mm", "overjet 1 mm", "clear 2 mm")
        .contains("registered, 61.5 %");
  }

  @Test
  void theBlocksShowHeightsInclineAndWhatIsTrimmed() throws Exception {
    Treatment base = SampleTreatments.base();
    BlockView view = BlockView.of(base, base.appliances().get(0), List.of()).orElseThrow();
    Drawn drawn = new Drawn(BlockDrawing.svg(view.trimmed(next(base))));
    assertThat(drawn.words())
        .contains("5.5 mm", "5 mm", "incline 70°")
        .contains("Next visit: trim 0.5 mm, visit 5 of the trimming plan");
    assertThat(drawn.words()).noneMatch(words -> words.contains("angle not given"));
  }

  private static NextTrim next(Treatment treatment) {
    Examination examination = new Examiner().examine(treatment, ON);
    return NextTrim.of(treatment, treatment.appliances().get(0), examination).orElseThrow();
  }

  @Test
  void nothingIsTrimmedWithAnOpenBite() throws Exception {
    Treatment open = SampleTreatments.changed("{\"/diagnosis/overbite\": 0}");
    NextTrim next = next(open);
    assertThat(next.amount().value()).isZero();
    BlockView view = BlockView.of(open, open.appliances().get(0), List.of()).orElseThrow();
    assertThat(new Drawn(BlockDrawing.svg(view.trimmed(next))).words())
        .contains("Next visit: no trimming, never: keep all posterior contact");
  }

  @Test
  void theInclineIsDrawnAtItsAngleAndNeverTrimmed() {
    Treatment base = SampleTreatments.base();
    BlockView view = BlockView.of(base, base.appliances().get(0), List.of()).orElseThrow();
    Wedge wedge = Wedge.of(view);
    double forward = wedge.inclineFoot().behind() - wedge.inclineTop().behind();
    double rise = wedge.inclineFoot().below() - wedge.inclineTop().below();
    assertThat(Math.toDegrees(Math.atan2(rise, forward))).isBetween(69.0, 71.0);
    assertThat(wedge.strip(2))
        .allSatisfy(p -> assertThat(p.behind()).isGreaterThan(wedge.inclineFoot().behind()));
  }

  @Test
  void aBlockIsDrawnInMillimetresOfItsScale() {
    Treatment base = SampleTreatments.base();
    BlockView view = BlockView.of(base, base.appliances().get(0), List.of()).orElseThrow();
    Wedge wedge = Wedge.of(view);
    assertThat(wedge.upper().get(2).below()).isBetween(4.5, 5.0);
    assertThat(wedge.lower().get(2).below()).isBetween(5.5, 6.0);
  }

  @Test
  void everyToothPresentIsLabelledOnceAndNoOther() throws Exception {
    List<Tooth> present = List.of(new Tooth("11"), new Tooth("75"), new Tooth("46"));
    Drawn drawn = new Drawn(TeethChart.svg("x", present));
    assertThat(drawn.words().stream().filter(Tooth::isCode))
        .containsExactlyInAnyOrder("11", "75", "46");
  }

  @Test
  void theRightOfThePatientIsOnTheLeft() {
    Spot front = new Spot(40, 10);
    assertThat(ToothShape.of(new Tooth("16"), front).middle().x())
        .isLessThan(ToothShape.of(new Tooth("26"), front).middle().x());
    assertThat(ToothShape.of(new Tooth("46"), front).middle().x())
        .isLessThan(ToothShape.of(new Tooth("36"), front).middle().x());
    assertThat(ToothShape.of(new Tooth("16"), front).middle().y())
        .isGreaterThan(ToothShape.of(new Tooth("11"), front).middle().y());
  }

  @Test
  void theTimeLineSaysTodayAndTheNextReview() throws Exception {
    Drawn drawn = new Drawn(StageLine.svg(SampleTreatments.base(), ON).orElseThrow());
    assertThat(drawn.words())
        .contains("today 2026-07-20", "Next review 2026-08-24", "active, 9 months");
  }

  /** A patient who is late is still in the stage of the last review, whatever the plan says. */
  @Test
  void theStageThePatientIsInIsShadedAndNamed() throws Exception {
    LocalDate late = ON.plusMonths(6);
    Drawn drawn = new Drawn(StageLine.svg(SampleTreatments.base(), late).orElseThrow());
    assertThat(
            drawn.elements().stream()
                .filter(each -> each.getTagName().equals("path"))
                .limit(3)
                .map(each -> each.getAttribute("fill").equals(Ink.SKY)))
        .containsExactly(true, false, false);
    assertThat(drawn.first("desc")).contains("active (under way) from");
    Treatment stopped =
        SampleTreatments.changed(
            """
            {"/completion": {"status": "patient-stopped", "decidedOn": "2026-07-19",
             "lastAttendedOn": "2026-07-13"}}""");
    assertThat(StageLine.svg(stopped, ON).orElseThrow())
        .doesNotContain("under way")
        .doesNotContain(Ink.SKY);
  }

  @Test
  void aFilmIsTracedWithItsAnglesAtAnySize() throws Exception {
    Figure sna =
        new Figure(
            "sna",
            "f",
            Value.of(Decimal.of("81.5").value()),
            Unit.DEGREE,
            "81 ± 3",
            Source.COMMON_PRACTICE,
            null);
    for (double size : new double[] {1, 0.01, 5}) {
      String svg = FilmTracing.svg(film("f", size, "8"), List.of(sna)).orElseThrow();
      holds(svg);
      assertThat(new Drawn(svg).words()).contains("SNA", "81.5°");
    }
    assertThat(
            FilmTracing.svg(
                new Film("e", ON, JawPosition.HABITUAL, null, Map.of(), null, null, null, null),
                List.of()))
        .isEmpty();
  }

  @Test
  void superimposedFilmsShareSellaAndTheirLine() throws Exception {
    String svg = FilmsSuperimposed.svg(film("a", 1, "8"), film("b", 1.1, "18.8")).orElseThrow();
    holds(svg);
    List<String> dots =
        new Drawn(svg)
            .elements().stream()
                .filter(e -> e.getTagName().equals("circle"))
                .map(e -> e.getAttribute("cx") + " " + e.getAttribute("cy"))
                .toList();
    List<String> first = new ArrayList<>(dots.subList(0, dots.size() / 2));
    List<String> second = new ArrayList<>(dots.subList(dots.size() / 2, dots.size()));
    Collections.sort(first);
    Collections.sort(second);
    assertThat(second).isEqualTo(first);
    assertThat(FilmsSuperimposed.svg(film("a", 1, "8"), film("b", 1, null))).isEmpty();
  }

  private static Film film(String id, double size, String magnification) {
    return new Film(
        id,
        ON,
        JawPosition.HABITUAL,
        magnification == null ? null : Decimal.of(magnification),
        Map.of(
            Landmark.S, point(0, 0, size),
            Landmark.N, point(71, 8, size),
            Landmark.A, point(69, -52, size),
            Landmark.B, point(60, -70, size),
            Landmark.ME, point(50, -79, size)),
        null,
        null,
        null,
        null);
  }

  private static Point point(double x, double y, double size) {
    return new Point(Decimal.of(String.valueOf(x * size)), Decimal.of(String.valueOf(y * size)));
  }
}
