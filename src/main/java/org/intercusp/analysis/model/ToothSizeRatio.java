package org.intercusp.analysis.model;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.analysis.Reckoned;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.StudyModel;

/**
 * Lower tooth material as a percentage of upper, and which arch has too much (Angle Orthod
 * 1958;28:113-130). A model that lacks the width of one of the teeth has no ratio.
 *
 * @param lower summed widths in millimetres
 * @param upper summed widths in millimetres, above 0
 */
public record ToothSizeRatio(Span span, Length lower, Length upper) {

  public static final Source SOURCE = Source.published("Angle Orthod 1958;28:113-130");

  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  public ToothSizeRatio {
    if (upper.value().signum() <= 0 || lower.value().signum() <= 0) {
      throw new IllegalArgumentException("teeth have width");
    }
  }

  public static Reckoned<ToothSizeRatio> of(StudyModel model, Span span) {
    List<Tooth> below = Widths.teeth(Arch.LOWER, 1, span.lastPosition);
    List<Tooth> above = Widths.teeth(Arch.UPPER, 1, span.lastPosition);
    List<Tooth> all = Stream.concat(above.stream(), below.stream()).toList();
    return Widths.sum(model, all)
        .flatMap(
            sum -> Widths.sum(model, below).flatMap(lower -> of(span, lower, sum.minus(lower))));
  }

  private static Reckoned<ToothSizeRatio> of(Span span, Length lower, Length upper) {
    return upper.value().signum() > 0 && lower.value().signum() > 0
        ? Reckoned.known(new ToothSizeRatio(span, lower, upper))
        : Reckoned.lacking("tooth widths are not above 0");
  }

  /** Per cent. */
  public BigDecimal percent() {
    return lower.value().multiply(HUNDRED).divide(upper.value(), MathContext.DECIMAL64);
  }

  /** The arch whose teeth are too wide for the other's. */
  public Arch excessIn() {
    return percent().compareTo(span.mean) >= 0 ? Arch.LOWER : Arch.UPPER;
  }

  /** By how much, in millimetres, against the mean ratio. */
  public Length excess() {
    BigDecimal ideal = span.mean.divide(HUNDRED);
    return excessIn() == Arch.LOWER
        ? new Length(lower.value().subtract(upper.value().multiply(ideal)))
        : new Length(upper.value().subtract(lower.value().divide(ideal, MathContext.DECIMAL64)));
  }

  /** Within one standard deviation of the mean, limits included. */
  public boolean usual() {
    return percent().subtract(span.mean).abs().compareTo(span.deviation) <= 0;
  }

  /** Standard uncertainty in per cent when every width was read with such an error. */
  public double uncertainty(ReadingError error) {
    double share = lower.asDouble() / upper.asDouble();
    double sum = error.standardUncertainty() * Math.sqrt(2.0 * span.lastPosition);
    return 100 * sum / upper.asDouble() * Math.sqrt(1 + share * share);
  }

  /** Whether a limit of the usual range lies within the uncertainty of the ratio. */
  public boolean borderline(ReadingError error) {
    BigDecimal away = percent().subtract(span.mean).abs();
    return away.subtract(span.deviation).abs().doubleValue() <= uncertainty(error);
  }

  /** Which teeth are summed. */
  public enum Span {
    /** First molar to first molar, 91.3 ± 1.91 %. */
    OVERALL(6, "91.3", "1.91"),
    /** Canine to canine, 77.2 ± 1.65 %. */
    ANTERIOR(3, "77.2", "1.65");

    private final int lastPosition;
    private final BigDecimal mean;
    private final BigDecimal deviation;

    Span(int lastPosition, String mean, String deviation) {
      this.lastPosition = lastPosition;
      this.mean = new BigDecimal(mean);
      this.deviation = new BigDecimal(deviation);
    }

    public BigDecimal mean() {
      return mean;
    }

    public BigDecimal deviation() {
      return deviation;
    }

    String usual() {
      return mean.toPlainString() + " ± " + deviation.toPlainString() + " %";
    }
  }
}
