package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.analysis.index.DentalHealth;
import org.intercusp.analysis.index.Mouth;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;
import org.intercusp.treatment.OutcomeFindings.Buccal.Transverse;
import org.intercusp.treatment.OutcomeFindings.OverbiteContact;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Dental health component, Eur J Orthod 1989;11:309-320, some letters from memory of it. Grades and
 * letters are exact, at each limit and a tenth of a millimetre beyond.
 */
class EurJOrthod1989DentalHealthTest {

  @ParameterizedTest
  @CsvSource({
    "0, 1, 1",
    "3.5, 1, 1",
    "3.50, 1, 1",
    "3.51, 2a, 3a",
    "3.6, 2a, 3a",
    "6.0, 2a, 3a",
    "6.01, 4a, 4a",
    "9.0, 4a, 4a",
    "9.01, 5a, 5a"
  })
  void overjetByLips(String overjet, String competent, String incompetent) {
    Mouth mouth = new Mouth();
    mouth.overjet = overjet;
    assertThat(dhc(mouth)).isEqualTo(competent);
    mouth.lips = Lips.INCOMPETENT;
    assertThat(dhc(mouth)).isEqualTo(incompetent);
  }

  @ParameterizedTest
  @CsvSource({"-0.01, 2b, 2b", "-1, 2b, 2b", "-1.01, 3b, 4m", "-3.5, 3b, 4m", "-3.51, 4b, 5m"})
  void reverseOverjetByDifficulty(String overjet, String without, String with) {
    Mouth mouth = new Mouth();
    mouth.overjet = overjet;
    assertThat(dhc(mouth)).isEqualTo(without);
    mouth.speech = true;
    assertThat(dhc(mouth)).as("speech alone").isEqualTo(without);
    mouth.mastication = true;
    assertThat(dhc(mouth)).isEqualTo(with);
  }

  @ParameterizedTest
  @CsvSource({"0, 2c", "1, 2c", "1.01, 3c", "2, 3c", "2.01, 4c"})
  void crossbiteByDiscrepancy(String shift, String code) {
    Mouth mouth = new Mouth();
    mouth.shift = shift;
    assertThat(dhc(mouth)).as("no crossbite").isEqualTo("1");
    mouth.crossbite = true;
    assertThat(dhc(mouth)).isEqualTo(code);
    mouth.crossbite = false;
    mouth.anteriorCrossbite = 1;
    assertThat(dhc(mouth)).as("in front").isEqualTo(code);
  }

  @Test
  void lingualCrossbiteWithoutContact() {
    Mouth mouth = new Mouth();
    mouth.lingualCrossbite = true;
    assertThat(dhc(mouth)).isEqualTo("4l");
    mouth.crossbite = true;
    mouth.shift = "3";
    assertThat(dhc(mouth)).as("the discrepancy comes first").isEqualTo("4c");
  }

  @ParameterizedTest
  @CsvSource({"1, 1, 1", "1.01, 2d, 2e", "2, 2d, 2e", "2.01, 3d, 3e", "4, 3d, 3e", "4.01, 4d, 4e"})
  void displacementAndOpenBite(String millimetres, String displaced, String open) {
    Mouth mouth = new Mouth();
    mouth.displacement = millimetres;
    assertThat(dhc(mouth)).isEqualTo(displaced);
    mouth = new Mouth();
    mouth.lateralOpenBite = millimetres;
    assertThat(dhc(mouth)).isEqualTo(open);
    mouth = new Mouth();
    mouth.overbite = "-" + millimetres;
    assertThat(dhc(mouth)).isEqualTo(open);
  }

  @ParameterizedTest
  @CsvSource({
    "3.4, NONE, 1",
    "3.5, NONE, 2f",
    "6, TOOTH, 2f",
    "6, TISSUE, 3f",
    "6, TRAUMA, 4f",
    "3, TRAUMA, 4f"
  })
  void overbiteByContact(String overbite, OverbiteContact contact, String code) {
    Mouth mouth = new Mouth();
    mouth.overbite = overbite;
    mouth.contact = contact;
    assertThat(dhc(mouth)).isEqualTo(code);
  }

  @ParameterizedTest
  @CsvSource({"UNDER_HALF, 2g", "HALF, 2g", "FULL, 1"})
  void buccalOcclusionWithNothingElse(AnteroPosterior sagittal, String code) {
    Mouth mouth = new Mouth();
    mouth.right = new Buccal(sagittal, false, Transverse.NONE);
    assertThat(dhc(mouth)).isEqualTo(code);
    mouth.mirror();
    assertThat(dhc(mouth)).isEqualTo(code);
  }

  @Test
  void missingTeethByQuadrant() {
    assertThat(missing("12")).isEqualTo("4h");
    assertThat(missing("12", "22", "35", "45")).isEqualTo("4h");
    assertThat(missing("12", "15")).isEqualTo("5h");
    assertThat(missing("34", "35")).isEqualTo("5h");
    assertThat(missing("12", "12")).as("one tooth named twice").isEqualTo("4h");
    assertThat(missing("18", "28", "38", "48")).as("third molars").isEqualTo("1");
    assertThat(missing("18", "12")).isEqualTo("4h");
  }

  /** The component grades permanent teeth: a deciduous molar that is gone has been shed. */
  @Test
  void aDeciduousToothIsNeitherMissingNorImpeded() {
    assertThat(missing("85", "55")).isEqualTo("1");
    assertThat(missing("85", "45")).as("one permanent tooth of the quadrant").isEqualTo("4h");
    Mouth mouth = new Mouth();
    mouth.impeded = Mouth.teeth("75");
    assertThat(dhc(mouth)).isEqualTo("1");
    mouth.impeded = Mouth.teeth("75", "35");
    assertThat(dhc(mouth)).isEqualTo("5i");
  }

  @Test
  void otherTraitsOfEruption() {
    Mouth mouth = new Mouth();
    mouth.supernumerary = true;
    assertThat(dhc(mouth)).isEqualTo("4x");
    mouth.tipped = Mouth.teeth("37");
    assertThat(dhc(mouth)).isEqualTo("4t");
    mouth.submerged = Mouth.teeth("75");
    assertThat(dhc(mouth)).isEqualTo("5s");
    mouth.impeded = Mouth.teeth("38");
    assertThat(dhc(mouth)).as("third molar").isEqualTo("5s");
    mouth.impeded = Mouth.teeth("13");
    assertThat(dhc(mouth)).isEqualTo("5i");
    mouth.cleft = true;
    assertThat(dhc(mouth)).isEqualTo("5p");
  }

  @Test
  void amongEqualsTheFirstSearchedNamesTheGrade() {
    Mouth mouth = new Mouth();
    mouth.contact = OverbiteContact.TRAUMA;
    assertThat(dhc(mouth)).isEqualTo("4f");
    mouth.lateralOpenBite = "4.5";
    mouth.displacement = "4.5";
    assertThat(dhc(mouth)).isEqualTo("4d");
    mouth.crossbite = true;
    mouth.shift = "2.5";
    assertThat(dhc(mouth)).isEqualTo("4c");
    mouth.overjet = "7";
    assertThat(dhc(mouth)).isEqualTo("4a");
    mouth.missing = Mouth.teeth("12");
    assertThat(dhc(mouth)).isEqualTo("4h");
    mouth.overjet = "9.5";
    assertThat(dhc(mouth)).as("the worst wins over the first").isEqualTo("5a");
  }

  @Test
  void aReadingWithinItsUncertaintyOfALimitIsBorderline() {
    Mouth mouth = new Mouth();
    mouth.overjet = "6.1";
    assertThat(DentalHealth.of(mouth.findings()).borderline()).isTrue();
    assertThat(DentalHealth.of(mouth.findings(), new ReadingError(0)).borderline()).isFalse();
    mouth.overjet = "7.5";
    assertThat(DentalHealth.of(mouth.findings()).borderline()).isFalse();
    mouth.displacement = "3.9";
    assertThat(DentalHealth.of(mouth.findings()).borderline())
        .as("a doubtful trait of no higher grade")
        .isFalse();
    assertThat(DentalHealth.of(mouth.findings()).grade()).isEqualTo(4);
  }

  /** Any reverse overjet above 0 is 2b, so an overjet read as 0 or 0.2 may be one. */
  @ParameterizedTest
  @CsvSource({"0, 1, true", "0.2, 1, true", "0.3, 1, false", "-0.2, 2b, true", "-0.3, 2b, false"})
  void anOverjetNearEdgeToEdgeMayBeReverse(String overjet, String code, boolean borderline) {
    Mouth mouth = new Mouth();
    mouth.overjet = overjet;
    assertThat(DentalHealth.of(mouth.findings())).isEqualTo(new DentalHealth(code, borderline));
  }

  private static String missing(String... teeth) {
    Mouth mouth = new Mouth();
    mouth.missing = Mouth.teeth(teeth);
    return dhc(mouth);
  }

  private static String dhc(Mouth mouth) {
    return DentalHealth.of(mouth.findings()).code();
  }

  @Test
  void aMouthWithoutFaultIsGradeOne() {
    assertThat(List.of(dhc(new Mouth()), dhc(new Mouth().mirror()))).containsOnly("1");
  }
}
