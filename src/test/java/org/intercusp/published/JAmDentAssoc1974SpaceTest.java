package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.analysis.model.ArchSpace;
import org.intercusp.analysis.model.ArchSpace.Basis;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.ModelSource;
import org.intercusp.treatment.StudyModel;
import org.junit.jupiter.api.Test;

/**
 * Widths of unerupted canines and premolars from the lower incisors, J Am Dent Assoc
 * 1974;88:798-801: half their sum and 10.5 mm in the lower arch, 11.0 in the upper. Exact:
 * decimals.
 */
class JAmDentAssoc1974SpaceTest {

  private static final BothArches AVAILABLE =
      new BothArches(/* upper= */ Length.of("75.0"), /* lower= */ Length.of("62.0"));

  @Test
  void aSumOfTwentyThree() {
    assertThat(ArchSpace.predictedSide(Arch.LOWER, Length.of("23.0"))).isEqualTo(Length.of("22.0"));
    assertThat(ArchSpace.predictedSide(Arch.UPPER, Length.of("23.0"))).isEqualTo(Length.of("22.5"));
  }

  @Test
  void spaceRequiredAndMissing() {
    ArchSpace lower = ArchSpace.of(mixed(), Arch.LOWER).result().get();
    assertThat(lower.required()).isEqualTo(Length.of("67.0"));
    assertThat(lower.discrepancy()).isEqualTo(Length.of("-5.0"));
    assertThat(lower.basis()).isEqualTo(Basis.PREDICTED);
    ArchSpace upper = ArchSpace.of(mixed(), Arch.UPPER).result().get();
    assertThat(upper.required()).isEqualTo(Length.of("76.0"));
    assertThat(upper.discrepancy()).isEqualTo(Length.of("-1.0"));
  }

  @Test
  void measuredTeethWinOverPredictedOnes() {
    Map<Tooth, Length> widths = new TreeMap<>(mixed().toothWidths());
    for (String tooth : new String[] {"33", "34", "35", "43", "44", "45"}) {
      widths.put(new Tooth(tooth), Length.of("7.0"));
    }
    ArchSpace lower = ArchSpace.of(model(widths, AVAILABLE), Arch.LOWER).result().get();
    assertThat(lower.required()).isEqualTo(Length.of("65.0"));
    assertThat(lower.basis()).isEqualTo(Basis.MEASURED);
    widths.remove(new Tooth("45"));
    assertThat(ArchSpace.of(model(widths, AVAILABLE), Arch.LOWER).result().get().basis())
        .isEqualTo(Basis.PREDICTED);
  }

  @Test
  void namesTheIncisorsItLacks() {
    Map<Tooth, Length> widths = new TreeMap<>(mixed().toothWidths());
    widths.remove(new Tooth("42"));
    assertThat(ArchSpace.of(model(widths, AVAILABLE), Arch.UPPER).reason())
        .isEqualTo("width missing: 42");
    assertThat(ArchSpace.of(model(widths, null), Arch.LOWER).reason()).contains("available");
  }

  private static StudyModel mixed() {
    Map<Tooth, Length> widths = new TreeMap<>();
    for (String tooth : new String[] {"31", "41"}) {
      widths.put(new Tooth(tooth), Length.of("5.5"));
    }
    for (String tooth : new String[] {"32", "42"}) {
      widths.put(new Tooth(tooth), Length.of("6.0"));
    }
    for (String tooth : new String[] {"11", "21"}) {
      widths.put(new Tooth(tooth), Length.of("8.5"));
    }
    for (String tooth : new String[] {"12", "22"}) {
      widths.put(new Tooth(tooth), Length.of("7.0"));
    }
    return model(widths, AVAILABLE);
  }

  private static StudyModel model(Map<Tooth, Length> widths, BothArches available) {
    return new StudyModel(
        "m",
        LocalDate.of(2026, 2, 3),
        ModelSource.PLASTER,
        widths,
        available,
        null,
        null,
        null,
        null);
  }
}
