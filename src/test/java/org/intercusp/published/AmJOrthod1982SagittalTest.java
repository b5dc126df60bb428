package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.film.Correction;
import org.intercusp.analysis.film.Face;
import org.intercusp.analysis.film.JawReadings;
import org.intercusp.analysis.film.SagittalAnalysis;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.junit.jupiter.api.Test;

/**
 * Sagittal-occlusal analysis, Am J Orthod 1982;82:104-113. The method is the paper's; the numbers
 * are invented and consistent by construction, so results in millimetres are exact decimals and
 * percentages are compared to their printed hundredth; through landmarks, to a millionth of a
 * millimetre, the rounding of a distance.
 */
class AmJOrthod1982SagittalTest {

  private static final JawReadings INCISORS_BEFORE = readings("74.0", "76.0", "83.5", "74.0");
  private static final JawReadings INCISORS_AFTER = readings("74.5", "80.0", "81.5", "79.0");
  private static final JawReadings MOLARS_BEFORE = readings("74.0", "76.0", "53.0", "51.5");
  private static final JawReadings MOLARS_AFTER = readings("74.5", "80.0", "52.5", "56.3");

  @Test
  void overjetCorrection() {
    Correction found = Correction.between(INCISORS_BEFORE, INCISORS_AFTER);
    assertThat(found.before()).isEqualTo(Length.of("9.5"));
    assertThat(found.after()).isEqualTo(Length.of("2.5"));
    assertThat(found.skeletal()).isEqualTo(Length.of("3.5"));
    assertThat(found.dental()).isEqualTo(Length.of("3.5"));
    assertThat(found.total()).isEqualTo(Length.of("7.0"));
    assertThat(found.skeletalPercent().result().get()).isEqualByComparingTo("50");
  }

  @Test
  void molarCorrection() {
    Correction found = Correction.between(MOLARS_BEFORE, MOLARS_AFTER);
    assertThat(found.total()).isEqualTo(Length.of("5.3"));
    assertThat(found.skeletal()).isEqualTo(Length.of("3.5"));
    assertThat(found.dental()).isEqualTo(Length.of("1.8"));
    assertThat(found.skeletalPercent().result().get())
        .isCloseTo(new BigDecimal("66.04"), within(new BigDecimal("0.005")));
  }

  @Test
  void backwardChangesHaveTheOtherSign() {
    Correction back = Correction.between(INCISORS_AFTER, INCISORS_BEFORE);
    assertThat(back.skeletal()).isEqualTo(Length.of("-3.5"));
    assertThat(back.dental()).isEqualTo(Length.of("-3.5"));
    assertThat(back.skeletalPercent().result().get()).isEqualByComparingTo("50");
  }

  @Test
  void percentagesAreWithheldWithoutCorrectionOrWithPartsThatPullApart() {
    Correction none = Correction.between(INCISORS_BEFORE, INCISORS_BEFORE);
    assertThat(none.skeletalPercent().reason()).contains("no correction");
    Correction apart =
        new Correction(Length.of("9"), Length.of("8"), Length.of("3"), Length.of("-2"));
    assertThat(apart.dentalPercent().reason()).contains("opposite signs");
    Correction cancelled =
        new Correction(Length.of("9"), Length.of("9"), Length.of("2"), Length.of("-2"));
    assertThat(cancelled.skeletalPercent().result()).isEmpty();
    Correction oneAlone =
        new Correction(Length.of("9"), Length.of("7"), Length.of("2"), Length.of("0"));
    assertThat(oneAlone.skeletalPercent().result().get()).isEqualByComparingTo("100");
  }

  @Test
  void throughTheLandmarksOfTwoFilms() {
    SagittalAnalysis found = SagittalAnalysis.between(before("8"), after("8"));
    assertCorrection(found.overjet().result().get(), 3.5, 3.5);
    assertCorrection(found.molar().result().get(), 3.5, 1.8);
    assertThat(found.overjet().result().get().before().asDouble()).isCloseTo(9.5, within(2e-6));
  }

  @Test
  void magnificationsOfTheTwoFilmsMayDifferButMustBeKnown() {
    SagittalAnalysis found = SagittalAnalysis.between(before("8"), after("11"));
    assertCorrection(found.overjet().result().get(), 3.5, 3.5);
    SagittalAnalysis unknown = SagittalAnalysis.between(before("8"), after(null));
    assertThat(unknown.overjet().reason()).startsWith("film after: magnification");
    assertThat(unknown.figures()).hasSize(10).allMatch(figure -> figure.value() == null);
  }

  /** Seven millimetres lost are far beyond the error of the landmarks, as seven gained are. */
  @Test
  void aLossIsAsSureAsAGain() {
    for (SagittalAnalysis found :
        List.of(
            SagittalAnalysis.between(before("8"), after("8")),
            SagittalAnalysis.between(after("8"), before("8")))) {
      assertThat(found.figures())
          .filteredOn(figure -> figure.name().equals("overjet-correction"))
          .noneMatch(figure -> figure.note().contains("borderline"))
          .hasSize(1);
    }
  }

  @Test
  void whatIsMissingIsNamed() {
    Map<Landmark, Point> lacking = new EnumMap<>(before("8").landmarks());
    lacking.remove(Landmark.L6);
    SagittalAnalysis found =
        SagittalAnalysis.between(Face.film("before", lacking, "8"), after("8"));
    assertThat(found.molar().reason()).isEqualTo("film before: landmark missing: L6");
    assertCorrection(found.overjet().result().get(), 3.5, 3.5);
    assertThat(found.figures()).extracting(Figure::name).contains("molar-correction-skeletal");
  }

  private static void assertCorrection(Correction found, double skeletal, double dental) {
    assertThat(found.skeletal().asDouble()).isCloseTo(skeletal, within(5e-6));
    assertThat(found.dental().asDouble()).isCloseTo(dental, within(5e-6));
  }

  /** The readings laid on a level occlusal line, at heights of no account. */
  private static Film before(String magnification) {
    return film("before", magnification, 0, 74.0, 76.0, 83.5, 74.0, 53.0, 51.5);
  }

  /** The second head held differently: turned by 11 degrees, elsewhere on the film. */
  private static Film after(String magnification) {
    return film("after", magnification, 11, 74.5, 80.0, 81.5, 79.0, 52.5, 56.3);
  }

  private static Film film(String id, String magnification, double turn, double... x) {
    Map<Landmark, Point> level = new EnumMap<>(Landmark.class);
    level.put(Landmark.S, Face.point(0, 0));
    level.put(Landmark.N, Face.point(69, 12));
    level.put(Landmark.A, Face.point(x[0], -48));
    level.put(Landmark.POG, Face.point(x[1], -98));
    level.put(Landmark.UI, Face.point(x[2], -70));
    level.put(Landmark.LI, Face.point(x[3], -67));
    level.put(Landmark.U6, Face.point(x[4], -66));
    level.put(Landmark.L6, Face.point(x[5], -74));
    level.put(Landmark.U6D, Face.point(44, -70));
    double factor = magnification == null ? 1 : 1 + Double.parseDouble(magnification) / 100;
    return Face.film(id, Face.moved(level, turn, factor, 2 * turn, -turn), magnification);
  }

  private static JawReadings readings(String upperBase, String lowerBase, String up, String low) {
    return new JawReadings(
        Length.of(upperBase), Length.of(lowerBase), Length.of(up), Length.of(low));
  }
}
