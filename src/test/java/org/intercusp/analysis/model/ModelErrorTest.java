package org.intercusp.analysis.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.Function;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.intercusp.analysis.model.ArchSpace.Basis;
import org.intercusp.analysis.model.ToothSizeRatio.Span;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.ModelSource;
import org.intercusp.treatment.StudyModel;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The stated uncertainty is the spread of models read again and again; nothing crashes on any. */
@Tag("steady")
class ModelErrorTest {

  private static final int READINGS = 20_000;

  @Test
  void uncertaintyOfARatioIsTheSpreadOfItsReadings() {
    for (Span span : Span.values()) {
      double stated =
          ToothSizeRatio.of(read(null), span).result().get().uncertainty(ReadingError.RULER);
      double seen =
          spread(m -> ToothSizeRatio.of(m, span).result().get().percent().doubleValue(), 6);
      assertThat(seen).isCloseTo(stated, within(0.03 * stated));
    }
  }

  /**
   * By hand from the law of propagation (JCGM 100:2008, 5.1.2): u of a width 0.5 / sqrt 3; twelve
   * widths an arch make 1.0 mm, so 100 / 96 sqrt(1 + (89.5 / 96)^2); six make 0.7071 mm.
   */
  @Test
  void uncertaintyOfUnlikeArchesIsTheOneReckonedByHand() {
    assertThat(ratio(Span.OVERALL, "89.5", "96").uncertainty(ReadingError.RULER))
        .isCloseTo(1.42414, within(0.00001));
    assertThat(ratio(Span.ANTERIOR, "30", "40").uncertainty(ReadingError.RULER))
        .isCloseTo(2.20971, within(0.00001));
  }

  @Test
  void uncertaintyOfSpaceIsTheSpreadOfItsReadings() {
    for (Arch arch : Arch.values()) {
      for (int last : new int[] {6, 2}) {
        ArchSpace space = ArchSpace.of(read(null, last), arch).result().get();
        assertThat(space.basis()).isEqualTo(last == 6 ? Basis.MEASURED : Basis.PREDICTED);
        double stated = space.uncertainty(ReadingError.RULER);
        double seen =
            spread(m -> ArchSpace.of(m, arch).result().get().discrepancy().asDouble(), last);
        assertThat(seen).isCloseTo(stated, within(0.03 * stated));
      }
    }
  }

  @Test
  void uncertaintyOfIrregularityIsTheSpreadOfItsReadings() {
    double stated = Irregularity.uncertainty(ReadingError.RULER);
    double seen = spread(m -> Irregularity.of(m.contacts().lower()).result().get().asDouble(), 6);
    assertThat(seen).isCloseTo(stated, within(0.03 * stated));
  }

  @Test
  void aRatioNearALimitOfTheUsualRangeIsBorderline() {
    ReadingError fine = new ReadingError(0.05);
    assertThat(ratio("93.2").borderline(fine)).isTrue();
    assertThat(ratio("93.3").borderline(fine)).isTrue();
    assertThat(ratio("91.3").borderline(fine)).isFalse();
    assertThat(ratio("96").borderline(fine)).isFalse();
    assertThat(ratio("89.4").borderline(fine)).isTrue();
  }

  @Test
  void aMirroredModelHasTheSameFigures() {
    StudyModel own = read(new SplittableRandom(8));
    Map<Tooth, Length> mirrored = new TreeMap<>();
    own.toothWidths().forEach((tooth, width) -> mirrored.put(tooth.mirrored(), width));
    assertThat(ModelFigures.figures(model(mirrored, own.contacts())))
        .isEqualTo(ModelFigures.figures(model(own.toothWidths(), own.contacts())));
  }

  @Test
  void widthNeededDoesNotWaitForTheArchToBeMeasured() {
    StudyModel unmeasured = model(read(null, 2).toothWidths(), null);
    assertThat(ModelFigures.figures(unmeasured))
        .filteredOn(figure -> figure.name().startsWith("space-required"))
        .allMatch(figure -> figure.value() != null && figure.note().contains("predicted"));
    assertThat(ModelFigures.figures(unmeasured))
        .filteredOn(figure -> figure.name().equals("space-lower"))
        .allMatch(figure -> figure.value() == null && figure.note().contains("arch length"));
  }

  @Test
  void everyFigureOfAnyModelHasAValueOrAReason() {
    SplittableRandom random = new SplittableRandom(12);
    for (int i = 0; i < 500; i++) {
      StudyModel full = read(random);
      Map<Tooth, Length> widths = new TreeMap<>(full.toothWidths());
      widths.keySet().removeIf(tooth -> random.nextInt(25) == 0);
      if (random.nextInt(10) == 0) {
        widths.replaceAll((tooth, width) -> Length.ZERO);
      }
      List<Figure> figures = ModelFigures.figures(model(widths, full.contacts()));
      assertThat(figures).hasSize(12);
      assertThat(figures).allMatch(figure -> figure.value() != null || !figure.note().isBlank());
    }
  }

  private static double spread(Function<StudyModel, Double> result, int last) {
    SplittableRandom random = new SplittableRandom(20260203);
    DescriptiveStatistics statistics = new DescriptiveStatistics();
    for (int i = 0; i < READINGS; i++) {
      statistics.addValue(result.apply(read(random, last)));
    }
    return statistics.getStandardDeviation();
  }

  private static StudyModel read(SplittableRandom random) {
    return read(random, 6);
  }

  /** A model of 8 mm teeth, read within half a millimetre; true where there is no random. */
  private static StudyModel read(SplittableRandom random, int last) {
    Map<Tooth, Length> widths = new TreeMap<>();
    for (int quadrant = 1; quadrant <= 4; quadrant++) {
      for (int position = 1; position <= last; position++) {
        widths.put(new Tooth("" + quadrant + position), reading(8, random));
      }
    }
    List<Contact> contacts = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      contacts.add(new Contact.Displaced(reading(2, random)));
    }
    BothArches available = new BothArches(reading(70, random), reading(62, random));
    return new StudyModel(
        "m",
        LocalDate.of(2026, 2, 3),
        ModelSource.PLASTER,
        widths,
        available,
        new Contacts(contacts, contacts),
        null,
        null,
        null);
  }

  private static StudyModel model(Map<Tooth, Length> widths, Contacts contacts) {
    return new StudyModel(
        "m", LocalDate.of(2026, 2, 3), ModelSource.SCAN, widths, null, contacts, null, null, null);
  }

  private static ToothSizeRatio ratio(String percent) {
    return ratio(Span.OVERALL, percent, "100");
  }

  private static ToothSizeRatio ratio(Span span, String lower, String upper) {
    return new ToothSizeRatio(span, Length.of(lower), Length.of(upper));
  }

  private static Length reading(double truth, SplittableRandom random) {
    double error = random == null ? 0 : random.nextDouble(-0.5, 0.5);
    return new Length(BigDecimal.valueOf(truth + error).setScale(9, RoundingMode.HALF_EVEN));
  }
}
