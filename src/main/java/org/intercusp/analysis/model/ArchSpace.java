package org.intercusp.analysis.model;

import java.math.BigDecimal;
import org.intercusp.analysis.Reckoned;
import org.intercusp.dentition.Arch;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.StudyModel;

/**
 * Space in an arch in millimetres: what is available from mesial of first molar to mesial of first
 * molar, less what the teeth between need. Where the canines and premolars are not all measured
 * they are predicted from the lower incisors (J Am Dent Assoc 1974;88:798-801).
 */
public record ArchSpace(Arch arch, Length required, Length available, Basis basis) {

  public static final Source PREDICTION = Source.published("J Am Dent Assoc 1974;88:798-801");

  private static final BigDecimal HALF = new BigDecimal("0.5");
  private static final Length LOWER_CONSTANT = Length.of("10.5");
  private static final Length UPPER_CONSTANT = Length.of("11.0");

  /** Below 0 is crowding, above 0 spacing. */
  public Length discrepancy() {
    return available.minus(required);
  }

  /**
   * Standard uncertainty of the discrepancy in millimetres when every width and the arch length
   * were read with such an error; that of the prediction itself is not in it.
   */
  public double uncertainty(ReadingError error) {
    // A lower incisor counts once itself and once, halved on two sides, in the prediction.
    double squares =
        switch (basis) {
          case MEASURED -> 10;
          case PREDICTED -> arch == Arch.LOWER ? 4 * 2 * 2 : 4 + 4;
        };
    return error.standardUncertainty() * Math.sqrt(squares + 1);
  }

  /**
   * Width of the canine and premolars of one side from the summed widths of the four lower
   * incisors: half of it, and 10.5 in the lower arch or 11.0 in the upper.
   */
  public static Length predictedSide(Arch arch, Length lowerIncisors) {
    Length half = new Length(lowerIncisors.value().multiply(HALF));
    return half.plus(arch == Arch.LOWER ? LOWER_CONSTANT : UPPER_CONSTANT);
  }

  /** The four lower incisors of a model together. */
  public static Reckoned<Length> lowerIncisors(StudyModel model) {
    return Widths.sum(model, Widths.teeth(Arch.LOWER, 1, 2));
  }

  public static Reckoned<ArchSpace> of(StudyModel model, Arch arch) {
    BothArches available = model.available();
    if (available == null) {
      return Reckoned.lacking("arch length available is not measured");
    }
    return needed(model, arch)
        .map(need -> new ArchSpace(arch, need.width(), available.in(arch), need.basis()));
  }

  /** What the teeth between the first molars need, measured where all of them are. */
  public static Reckoned<Need> needed(StudyModel model, Arch arch) {
    Reckoned<Need> measured =
        Widths.sum(model, Widths.teeth(arch, 1, 5)).map(width -> new Need(width, Basis.MEASURED));
    return measured.result().isPresent()
        ? measured
        : Widths.sum(model, Widths.teeth(arch, 1, 2))
            .flatMap(
                incisors ->
                    lowerIncisors(model)
                        .map(lower -> predictedSide(arch, lower))
                        .map(side -> incisors.plus(side).plus(side)))
            .map(width -> new Need(width, Basis.PREDICTED));
  }

  /** Width needed in millimetres, and where it comes from. */
  public record Need(Length width, Basis basis) {

    Source source() {
      return basis == Basis.PREDICTED ? PREDICTION : Source.COMMON_PRACTICE;
    }
  }

  /** Where the widths of canines and premolars come from. */
  public enum Basis {
    MEASURED("canines and premolars measured"),
    PREDICTED("canines and premolars predicted from the lower incisors");

    private final String shown;

    Basis(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }
  }
}
