package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.index.Mouth;
import org.intercusp.analysis.index.ParChange;
import org.intercusp.analysis.index.ParChange.Improvement;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.analysis.index.PeerAssessment;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;
import org.intercusp.treatment.OutcomeFindings.Buccal.Transverse;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Peer assessment rating, Eur J Orthod 1992;14:125-139 (components) and 180-187 (weights, classes
 * of improvement). The tables of buccal segments, overjet, overbite and centreline are from memory
 * of the paper. Scores are whole numbers and exact; percentages are compared to the printed
 * thousandth.
 */
class EurJOrthod1992PeerAssessmentTest {

  private static final OutcomeScores.Par BEFORE = new OutcomeScores.Par(6, 4, 2, 2, 4, 2, 1);
  private static final OutcomeScores.Par AFTER = new OutcomeScores.Par(1, 1, 1, 0, 0, 0, 0);

  @ParameterizedTest
  @CsvSource({
    "0, 0", "1, 0", "1.0, 0", "1.01, 1", "1.1, 1", "2, 1", "2.01, 2", "4, 2", "4.01, 3", "8, 3",
    "8.01, 4"
  })
  void oneContact(String millimetres, int points) {
    Mouth mouth = new Mouth();
    mouth.upper = Mouth.displaced("0", "0", millimetres, "0", "0");
    assertThat(par(mouth).upperAnterior()).isEqualTo(points);
    assertThat(par(mouth).lowerAnterior()).isZero();
  }

  @Test
  void contactsAddUpAndAnImpactedToothIsFive() {
    Mouth mouth = new Mouth();
    List<Contact> lower = new ArrayList<>(Mouth.displaced("1.5", "3", "9", "0.5", "0"));
    lower.set(4, new Contact.Impacted());
    mouth.lower = lower;
    assertThat(par(mouth).lowerAnterior()).isEqualTo(1 + 2 + 4 + 0 + 5);
    lower.set(1, new Contact.Unmeasured());
    mouth.lower = lower;
    assertThat(PeerAssessment.components(mouth.findings()).reason())
        .isEqualTo("lower contact 2 from the patient's right is not measured");
  }

  @ParameterizedTest
  @CsvSource({
    "-4, 0", "0, 0", "3, 0", "3.0, 0", "3.1, 1", "3.01, 1", "5, 1", "5.01, 2", "7, 2", "7.01, 3",
    "9, 3", "9.01, 4"
  })
  void overjet(String millimetres, int points) {
    Mouth mouth = new Mouth();
    mouth.overjet = millimetres;
    assertThat(par(mouth).overjet()).isEqualTo(points);
  }

  @ParameterizedTest
  @CsvSource({"0, 0, 0", "1, 0, 1", "2, 0, 1", "0, 1, 2", "0, 2, 3", "0, 3, 4", "4, 6, 4"})
  void anteriorCrossbiteAddsToOverjet(int edgeToEdge, int crossed, int points) {
    Mouth mouth = new Mouth();
    mouth.edgeToEdge = edgeToEdge;
    mouth.anteriorCrossbite = crossed;
    assertThat(par(mouth).overjet()).isEqualTo(points);
    mouth.overjet = "9.5";
    assertThat(par(mouth).overjet()).isEqualTo(4 + points);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "0.33, 0",
    "0.3333333, 0",
    "0.3334, 1",
    "0.34, 1",
    "0.66, 1",
    "0.6666666, 1",
    "0.6667, 2",
    "0.67, 2",
    "0.99, 2",
    "1, 3",
    "1.0, 3",
    "1.5, 3"
  })
  void overbiteByCover(String cover, int points) {
    Mouth mouth = new Mouth();
    mouth.cover = cover;
    assertThat(par(mouth).overbite()).isEqualTo(points);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "-0.01, 1",
    "-1, 1",
    "-1.01, 2",
    "-2, 2",
    "-2.01, 3",
    "-3, 3",
    "-3.01, 4",
    "-3.9, 4",
    "-4, 4"
  })
  void openBiteHasNoGapBetweenThreeAndFour(String overbite, int points) {
    Mouth mouth = new Mouth();
    mouth.overbite = overbite;
    mouth.cover = "0";
    assertThat(par(mouth).overbite()).isEqualTo(points);
  }

  @Test
  void overbiteAndOpenBiteDoNotAddButTheGreaterCounts() {
    Mouth mouth = new Mouth();
    mouth.overbite = "-1.5";
    mouth.cover = "1";
    assertThat(par(mouth).overbite()).isEqualTo(3);
    mouth.cover = "0.5";
    assertThat(par(mouth).overbite()).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "0.25, 0", "0.250, 0", "0.26, 1", "0.5, 1", "0.51, 2", "2, 2"})
  void centreline(String share, int points) {
    Mouth mouth = new Mouth();
    mouth.centreline = share;
    assertThat(par(mouth).centreline()).isEqualTo(points);
  }

  @ParameterizedTest
  @CsvSource({
    "FULL, false, NONE, 0", "UNDER_HALF, false, NONE, 1", "HALF, false, NONE, 2",
    "FULL, true, NONE, 1", "FULL, false, TENDENCY, 1", "FULL, false, ONE, 2",
    "FULL, false, SEVERAL, 3", "FULL, false, SCISSOR_SEVERAL, 4", "HALF, true, SCISSOR_SEVERAL, 7"
  })
  void buccalSegment(AnteroPosterior sagittal, boolean open, Transverse transverse, int points) {
    Mouth mouth = new Mouth();
    mouth.left = new Buccal(sagittal, open, transverse);
    assertThat(par(mouth).buccalLeft()).isEqualTo(points);
    assertThat(par(mouth).buccalRight()).isZero();
  }

  @Test
  void workedExample() {
    assertThat(ParWeighting.UK.score(BEFORE)).isEqualTo(46);
    assertThat(ParWeighting.UK.score(AFTER)).isEqualTo(3);
    ParChange change = new ParChange(46, 3);
    assertThat(change.percent().result().get())
        .isCloseTo(new BigDecimal("93.478"), within(new BigDecimal("0.0005")));
    assertThat(change.improvement().result()).contains(Improvement.GREATLY_IMPROVED);
  }

  @ParameterizedTest
  @CsvSource({
    "80, 58, WORSE_OR_NO_DIFFERENT",
    "80, 56, GREATLY_IMPROVED",
    "80, 57, WORSE_OR_NO_DIFFERENT",
    "10, 7, IMPROVED",
    "10, 8, WORSE_OR_NO_DIFFERENT",
    "22, 0, GREATLY_IMPROVED",
    "21, 0, IMPROVED",
    "30, 9, IMPROVED",
    "30, 8, GREATLY_IMPROVED",
    "73, 51, GREATLY_IMPROVED",
    "74, 52, WORSE_OR_NO_DIFFERENT",
    "3, 3, WORSE_OR_NO_DIFFERENT",
    "3, 9, WORSE_OR_NO_DIFFERENT"
  })
  void bothBoundariesBelongToTheBetterClass(int before, int after, Improvement improvement) {
    assertThat(new ParChange(before, after).improvement().result()).contains(improvement);
  }

  @Test
  void nothingBeforeHasNoPercentage() {
    ParChange change = new ParChange(0, 0);
    assertThat(change.percent().result()).isEmpty();
    assertThat(change.percent().reason()).contains("was 0");
    assertThat(change.improvement().result()).isEmpty();
    assertThat(new ParChange(0, 4).reduction()).isEqualTo(-4);
  }

  @Test
  void aDisplacementCountsTheSameToEitherSide() {
    Mouth mouth = new Mouth();
    mouth.upper =
        List.of(
            new Contact.Displaced(Length.of("-2.5")),
            new Contact.Displaced(Length.of("2.5")),
            new Contact.Displaced(Length.ZERO),
            new Contact.Displaced(Length.ZERO),
            new Contact.Displaced(Length.ZERO));
    assertThat(par(mouth).upperAnterior()).isEqualTo(4);
  }

  private static OutcomeScores.Par par(Mouth mouth) {
    return PeerAssessment.components(mouth.findings()).result().orElseThrow();
  }
}
