package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.index.ComplexityIndex;
import org.intercusp.analysis.index.ComplexityIndex.Improvement;
import org.intercusp.analysis.index.Mouth;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;
import org.intercusp.treatment.OutcomeFindings.Buccal.Transverse;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Index of complexity, outcome and need, from memory of J Orthod 2000;27:149-162: components,
 * weights, limits of need and acceptance, classes of improvement. Whole numbers, exact.
 */
class JOrthod2000ComplexityFromMemoryTest {

  @Test
  void workedExample() {
    int before = ComplexityIndex.score(new OutcomeScores.Icon(7, 1, 0, 2, 2, 2));
    assertThat(before).isEqualTo(74);
    assertThat(ComplexityIndex.improvement(before, 10)).isEqualTo(34);
    assertThat(ComplexityIndex.improvementClass(before, 10))
        .isEqualTo(Improvement.GREATLY_IMPROVED);
  }

  @Test
  void everyWeight() {
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 0, 0, 0, 0, 0))).isEqualTo(7);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 1, 0, 0, 0, 0))).isEqualTo(12);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 0, 1, 0, 0, 0))).isEqualTo(12);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 0, 0, 1, 0, 0))).isEqualTo(11);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 0, 0, 0, 1, 0))).isEqualTo(10);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(1, 0, 0, 0, 0, 1))).isEqualTo(10);
    assertThat(ComplexityIndex.score(new OutcomeScores.Icon(10, 5, 1, 4, 2, 2))).isEqualTo(128);
  }

  @Test
  void needAndAcceptance() {
    assertThat(ComplexityIndex.needsTreatment(43)).isFalse();
    assertThat(ComplexityIndex.needsTreatment(44)).isTrue();
    assertThat(ComplexityIndex.acceptable(31)).isFalse();
    assertThat(ComplexityIndex.acceptable(30)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "40, 10, GREATLY_IMPROVED",
    "39, 10, SUBSTANTIALLY_IMPROVED",
    "15, 10, SUBSTANTIALLY_IMPROVED",
    "14, 10, MODERATELY_IMPROVED",
    "27, 20, MODERATELY_IMPROVED",
    "26, 20, MINIMALLY_IMPROVED",
    "35, 30, MINIMALLY_IMPROVED",
    "34, 30, NOT_IMPROVED_OR_WORSE"
  })
  void classesAtTheirLimits(int before, int after, Improvement improvement) {
    assertThat(ComplexityIndex.improvementClass(before, after)).isEqualTo(improvement);
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "2, 0",
    "2.01, 1",
    "5, 1",
    "5.01, 2",
    "9, 2",
    "9.01, 3",
    "13, 3",
    "13.01, 4",
    "17, 4",
    "17.01, 5"
  })
  void crowding(String millimetres, int points) {
    Mouth mouth = new Mouth();
    mouth.crowding = millimetres;
    assertThat(icon(mouth).crowdingSpacing()).isEqualTo(points);
  }

  @ParameterizedTest
  @CsvSource({"2, 0", "2.01, 1", "5, 1", "5.01, 2", "9, 2", "9.01, 3", "20, 3"})
  void spacing(String millimetres, int points) {
    Mouth mouth = new Mouth();
    mouth.spacing = millimetres;
    assertThat(icon(mouth).crowdingSpacing()).isEqualTo(points);
  }

  @Test
  void impactedUpperTeethAreFive() {
    Mouth mouth = new Mouth();
    List<Contact> upper = new ArrayList<>(mouth.upper);
    upper.set(0, new Contact.Impacted());
    mouth.upper = upper;
    assertThat(icon(mouth).crowdingSpacing()).isEqualTo(5);
  }

  @ParameterizedTest
  @CsvSource({
    "2, 0, 0",
    "2, 0.33, 0",
    "2, 0.3334, 1",
    "2, 0.66, 1",
    "2, 0.6667, 2",
    "2, 1, 3",
    "0, 0, 0",
    "-0.01, 0, 1",
    "-1, 0, 1",
    "-1.01, 0, 2",
    "-2, 0, 2",
    "-2.01, 0, 3",
    "-4, 0, 3",
    "-4.01, 0, 4",
    "-1, 1, 3"
  })
  void vertical(String overbite, String cover, int points) {
    Mouth mouth = new Mouth();
    mouth.overbite = overbite;
    mouth.cover = cover;
    assertThat(icon(mouth).vertical()).isEqualTo(points);
  }

  @Test
  void crossbiteInFrontOrBehind() {
    assertThat(icon(new Mouth()).crossbite()).isZero();
    Mouth behind = new Mouth();
    behind.crossbite = true;
    assertThat(icon(behind).crossbite()).isEqualTo(1);
    Mouth front = new Mouth();
    front.edgeToEdge = 1;
    assertThat(icon(front).crossbite()).isEqualTo(1);
    Mouth crossed = new Mouth();
    crossed.anteriorCrossbite = 1;
    assertThat(icon(crossed).crossbite()).isEqualTo(1);
    Mouth lingual = new Mouth();
    lingual.lingualCrossbite = true;
    assertThat(icon(lingual).crossbite()).isEqualTo(1);
  }

  @Test
  void buccalSidesAndAesthetics() {
    Mouth mouth = new Mouth();
    mouth.right = new Buccal(AnteroPosterior.HALF, false, Transverse.NONE);
    mouth.left = new Buccal(AnteroPosterior.UNDER_HALF, false, Transverse.NONE);
    mouth.aesthetic = 8;
    assertThat(icon(mouth)).isEqualTo(new OutcomeScores.Icon(8, 0, 0, 0, 2, 1));
  }

  /** What the aesthetic component and nothing else makes of a mouth without any trait. */
  @Test
  void aMouthWithoutTraitsHasTheAestheticComponentAlone() {
    assertThat(icon(new Mouth())).isEqualTo(new OutcomeScores.Icon(1, 0, 0, 0, 0, 0));
  }

  private static OutcomeScores.Icon icon(Mouth mouth) {
    return ComplexityIndex.components(mouth.findings());
  }
}
