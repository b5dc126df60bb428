package org.intercusp.analysis.index;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the reading error makes of PAR and ICON: half a millimetre either way, so 0.289 mm standard
 * uncertainty (common practice, no source), worked by hand from the tables of the indices.
 */
class IndexErrorTest {

  /** Boundaries 3, 5, 7, 9 mm; each step of the overjet weighs 6 points. */
  @ParameterizedTest
  @CsvSource({
    "2.71, 0, 0, 0",
    "2.72, 0, 0, 6",
    "3.0, 0, 0, 6",
    "3.1, 0, 6, 6",
    "3.28, 0, 6, 6",
    "3.29, 6, 6, 6",
    "8, 18, 18, 18",
    "9.2, 18, 24, 24"
  })
  void overjetNearABoundary(String overjet, int lowest, int scored, int highest) {
    Mouth mouth = new Mouth();
    mouth.overjet = overjet;
    Reread reread = reread(mouth);
    assertThat(reread.par(ParWeighting.UK).result())
        .contains(new ScoreRange(lowest, scored, highest));
    assertThat(reread.borderlinePar().result())
        .contains(lowest == highest ? List.of() : List.of("overjet"));
  }

  /**
   * The least improvement is from the lowest start to the highest end; ICON counts it four times.
   */
  @Test
  void theLeastAndGreatestImprovementTakeOppositeEnds() {
    ImprovementRange range =
        new ImprovementRange(new ScoreRange(40, 50, 60), new ScoreRange(8, 10, 12));
    assertThat(List.of(range.leastIcon(), range.icon(), range.greatestIcon()))
        .containsExactly(-8, 10, 28);
    assertThat(List.of(range.leastPar(), range.par(), range.greatestPar()))
        .containsExactly(new ParChange(40, 12), new ParChange(50, 10), new ParChange(60, 8));
    assertThat(range.leastIconClass())
        .isEqualTo(ComplexityIndex.Improvement.SUBSTANTIALLY_IMPROVED);
    assertThat(range.greatestIconClass()).isEqualTo(ComplexityIndex.Improvement.GREATLY_IMPROVED);
  }

  @Test
  void everyContactOfAnArchCounts() {
    Mouth mouth = new Mouth();
    // 1.1 is 1 point and could be 0; 2 is 1 and could be 2; 0.5 stays 0; 8.2 is 4, could be 3.
    mouth.upper = Mouth.displaced("1.1", "2", "0.5", "8.2", "0");
    Reread reread = reread(mouth);
    assertThat(reread.par(ParWeighting.UK).result()).contains(new ScoreRange(4, 6, 7));
    assertThat(reread.borderlinePar().result()).contains(List.of("upper anterior"));
  }

  @Test
  void theUsWeightingLeavesTheLowerArchOut() {
    Mouth mouth = new Mouth();
    mouth.lower = Mouth.displaced("1.1", "0", "0", "0", "0");
    assertThat(reread(mouth).par(ParWeighting.UK).result()).contains(new ScoreRange(0, 1, 1));
    assertThat(reread(mouth).par(ParWeighting.US).result()).contains(new ScoreRange(0, 0, 0));
  }

  @Test
  void aBiteAboutToOpenIsBorderlineInBothIndices() {
    Mouth mouth = new Mouth();
    mouth.overbite = "0.2";
    Reread reread = reread(mouth);
    assertThat(reread.borderlinePar().result()).contains(List.of("overbite"));
    assertThat(reread.borderlineIcon().result()).contains(List.of("vertical"));
    assertThat(reread.par(ParWeighting.UK).result()).contains(new ScoreRange(0, 0, 2));
    assertThat(reread.icon().result()).contains(new ScoreRange(7, 7, 11));
  }

  @Test
  void withoutErrorThereIsNoRange() {
    Mouth mouth = new Mouth();
    mouth.overjet = "3.0";
    Reread exact = Reread.of(outcome("o", Phase.START, mouth), new ReadingError(0));
    assertThat(exact.par(ParWeighting.UK).result()).contains(new ScoreRange(0, 0, 0));
    assertThat(exact.par(ParWeighting.UK).result().orElseThrow().borderline()).isFalse();
  }

  @Test
  void theClassOfImprovementIsBorderlineWhenItsRangeCrossesABoundary() {
    // Overjet 8 is 18 points, with four contacts of 1.5 mm: 22; all gone is 22 points, 100 %.
    Mouth start = new Mouth();
    start.overjet = "8";
    start.upper = Mouth.displaced("1.5", "1.5", "1.5", "1.5", "0");
    Outcome before = outcome("s", Phase.START, start);
    List<Figure> clear = change(before, outcome("e", Phase.END, new Mouth()));
    assertThat(named(clear, "par-uk-improvement").value().shown()).isEqualTo("greatly improved");
    assertThat(named(clear, "par-uk-improvement").note()).isEqualTo("since s");
    Mouth end = new Mouth();
    end.upper = Mouth.displaced("0.9", "0", "0", "0", "0");
    List<Figure> doubtful = change(before, outcome("e", Phase.END, end));
    assertThat(named(doubtful, "par-uk-improvement").note())
        .isEqualTo("since s; borderline: from improved to greatly improved");
    assertThat(named(doubtful, "par-uk-reduction").note())
        .isEqualTo("since s; borderline: 21 to 22 with readings 0.29 mm smaller or larger");
    assertThat(named(doubtful, "par-uk-reduction-percent").note())
        .isEqualTo("since s; borderline: 95.45 % to 100.00 %");
  }

  /** As the rules and a registry take it: of two scorings of the start the later one, by date. */
  @Test
  void aChangeIsSinceTheLastScoringOfTheStart() {
    Mouth worse = new Mouth();
    worse.overjet = "8";
    Outcome late = on("2026-03-02", outcome("late", Phase.START, worse));
    Outcome early = on("2025-09-01", outcome("early", Phase.START, new Mouth()));
    Outcome end = outcome("end", Phase.END, new Mouth());
    for (List<Outcome> file : List.of(List.of(early, late, end), List.of(late, early, end))) {
      List<Figure> figures = IndexFigures.figures(file, ReadingError.RULER);
      assertThat(named(figures, "par-uk-reduction").note()).startsWith("since late");
    }
  }

  private static Outcome on(String date, Outcome o) {
    return new Outcome(
        o.id(),
        LocalDate.parse(date),
        o.phase(),
        o.source(),
        o.examiner(),
        o.repeatOf(),
        o.findings(),
        o.scores(),
        o.reportedOutcomes());
  }

  @Test
  void verdictsOfIconAreBorderlineWhenTheirRangeCrossesALimit() {
    Mouth mouth = new Mouth();
    mouth.aesthetic = 4;
    // 28 points; crowding 2 could be the next band, 5 points more: 33 is not acceptable.
    mouth.crowding = "2";
    List<Figure> figures =
        IndexFigures.figures(outcome("o", Phase.START, mouth), ReadingError.RULER);
    assertThat(named(figures, "icon").value().shown()).isEqualTo("28");
    assertThat(named(figures, "icon").note())
        .endsWith("borderline: 28 to 33 with readings 0.29 mm smaller or larger");
    assertThat(named(figures, "icon-verdict").note())
        .endsWith(
            "borderline: from acceptable as an outcome to treatment not needed, not acceptable as"
                + " an outcome");
    assertThat(named(figures, "icon-borderline").value().shown()).isEqualTo("crowding spacing");
  }

  @Test
  void needIsBorderlineWhenTheGradeIs() {
    Mouth mouth = new Mouth();
    mouth.overjet = "6";
    assertThat(reread(mouth).borderlineNeed()).isTrue();
    mouth.overjet = "5.5";
    assertThat(reread(mouth).borderlineNeed()).isFalse();
    mouth.overjet = "9";
    assertThat(reread(mouth).borderlineNeed()).as("needed in either grade").isFalse();
  }

  @Test
  void figuresOfNeedSayWhatIsBorderline() {
    Mouth mouth = new Mouth();
    mouth.overjet = "6";
    String borderline = "borderline: a reading lies within its uncertainty of a limit";
    assertThat(note(mouth, "treatment-need")).isEqualTo(borderline);
    assertThat(note(mouth, "dental-health-component"))
        .isEqualTo("computed from the findings; " + borderline);
    mouth.overjet = "5.5";
    assertThat(note(mouth, "treatment-need")).isNull();
    assertThat(note(mouth, "dental-health-component")).isEqualTo("computed from the findings");
  }

  private static String note(Mouth mouth, String figure) {
    return named(IndexFigures.figures(outcome("o", Phase.START, mouth)), figure).note();
  }

  /** 74 points before and 10 after, the worked example; 35 in between. */
  @Test
  void iconIsToldInWords() {
    Outcome before = icon("s", Phase.START, new OutcomeScores.Icon(7, 1, 0, 2, 2, 2));
    Outcome after = icon("e", Phase.END, new OutcomeScores.Icon(1, 0, 0, 0, 0, 1));
    assertThat(named(IndexFigures.figures(before), "icon-verdict").value().shown())
        .isEqualTo("treatment needed, not acceptable as an outcome");
    assertThat(named(IndexFigures.figures(after), "icon-verdict").value().shown())
        .isEqualTo("acceptable as an outcome");
    Outcome between = icon("m", Phase.END, new OutcomeScores.Icon(5, 0, 0, 0, 0, 0));
    assertThat(named(IndexFigures.figures(between), "icon-verdict").value().shown())
        .isEqualTo("treatment not needed, not acceptable as an outcome");
    List<Figure> change = change(before, after);
    assertThat(named(change, "icon-improvement").value().shown()).isEqualTo("34");
    assertThat(named(change, "icon-improvement-class").value().shown())
        .isEqualTo("greatly improved");
    assertThat(named(change, "icon-improvement-class").note()).isEqualTo("since s");
  }

  /** Crowding of 2 mm at the end is 28 to 33 points: 74 - 4 x 28 is -38, 74 - 4 x 33 is -58. */
  @Test
  void aChangeOfIconSaysWhatItCouldBe() {
    Outcome before = icon("s", Phase.START, new OutcomeScores.Icon(7, 1, 0, 2, 2, 2));
    Mouth end = new Mouth();
    end.aesthetic = 4;
    end.crowding = "2";
    List<Figure> change = change(before, outcome("e", Phase.END, end));
    assertThat(named(change, "icon-improvement").note())
        .isEqualTo("since s; borderline: -58 to -38 with readings 0.29 mm smaller or larger");
    assertThat(named(change, "icon-improvement-class").note())
        .isEqualTo("since s; borderline: from minimally improved to moderately improved");
  }

  private static Outcome icon(String id, Phase phase, OutcomeScores.Icon icon) {
    return Mouth.outcome(id, phase, null, new OutcomeScores(null, null, icon));
  }

  /** The aesthetic component is asked for in grade 3 alone. */
  @ParameterizedTest
  @CsvSource({"1, not needed", "2a, not needed", "3a,", "4a, needed", "5a, needed"})
  void needWithoutAnAestheticComponent(String dhc, String need) {
    Outcome outcome = Mouth.outcome("o", Phase.END, null, new OutcomeScores(null, dhc, null));
    assertThat(IndexFigures.figures(outcome))
        .filteredOn(figure -> figure.name().equals("treatment-need"))
        .extracting(figure -> figure.value() == null ? null : figure.value().shown())
        .containsExactly(need);
  }

  @Test
  void scoresWithoutFindingsHaveNoRange() {
    OutcomeScores scores =
        new OutcomeScores(new OutcomeScores.Par(1, 0, 0, 0, 2, 0, 0), "4a", null);
    Reread given = Reread.of(Mouth.outcome("o", Phase.START, null, scores), ReadingError.RULER);
    assertThat(given.par(ParWeighting.UK).result()).contains(new ScoreRange(13, 13, 13));
    assertThat(given.borderlinePar().reason()).contains("findings");
  }

  private static List<Figure> change(Outcome before, Outcome after) {
    return IndexFigures.change(before, after, ReadingError.RULER);
  }

  private static Figure named(List<Figure> figures, String name) {
    return figures.stream().filter(each -> each.name().equals(name)).findFirst().orElseThrow();
  }

  private static Reread reread(Mouth mouth) {
    return Reread.of(outcome("o", Phase.START, mouth), ReadingError.RULER);
  }

  private static Outcome outcome(String id, Phase phase, Mouth mouth) {
    return Mouth.outcome(id, phase, mouth.findings(), null);
  }
}
