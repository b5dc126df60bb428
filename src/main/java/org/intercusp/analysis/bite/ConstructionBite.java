package org.intercusp.analysis.bite;

import java.math.BigDecimal;
import java.math.MathContext;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Share;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/**
 * What follows from the readings of a construction bite (millimetres, one sliding scale, forward
 * positive). With a retruded reading the path runs from there to the maximum; without one it runs
 * from the habitual position and the slide is assumed to be zero. Common practice, no source.
 *
 * @param path how far the jaw can come forward
 * @param activation how far the registered position lies along the path
 * @param slideAssumed whether no retruded reading was given and the slide is taken as zero
 * @param step how far the bite was taken forward of the habitual position
 * @param explainedOverjet the overjet in the bite that the readings explain
 * @param unexplained recorded minus explained overjet in the bite
 */
public record ConstructionBite(
    Length path,
    Length activation,
    boolean slideAssumed,
    Length step,
    Length explainedOverjet,
    Length unexplained,
    @Nullable Length slideRead,
    ReadingError error) {

  /** Computes from a bite as recorded. */
  public static ConstructionBite of(Bite bite, ReadingError error) {
    Length retruded = bite.retrudedReading();
    Length from = retruded == null ? bite.habitualReading() : retruded;
    Length step = bite.registeredReading().minus(bite.habitualReading());
    Length explained = bite.overjetHabitual().minus(step);
    return new ConstructionBite(
        bite.maximumReading().minus(from),
        bite.registeredReading().minus(from),
        retruded == null,
        step,
        explained,
        bite.overjetInBite().minus(explained),
        retruded == null ? null : bite.habitualReading().minus(retruded),
        error);
  }

  /** Habitual minus retruded reading; lacking without a retruded reading. */
  public Reckoned<Length> slide() {
    return slideRead == null
        ? Reckoned.lacking("no retrudedReading was taken")
        : Reckoned.known(slideRead);
  }

  /** The slide for plans: as read, or zero where it is assumed. */
  public Length slideTaken() {
    return slideRead == null ? Length.ZERO : slideRead;
  }

  /** Share of the path that the bite uses; lacking when the path is not positive. */
  public Reckoned<Share> share() {
    if (path.value().signum() <= 0) {
      return Reckoned.lacking("the path is not positive: maximumReading is not in front");
    }
    return Reckoned.known(
        new Share(activation.value().divide(path.value(), MathContext.DECIMAL64)));
  }

  /**
   * Whether the share lies above a limit. Compared as activation against limit times path, so no
   * quotient is rounded on the way; false when there is no share.
   */
  public boolean usesMoreThan(Share limit) {
    BigDecimal allowed = limit.value().multiply(path.value());
    return path.value().signum() > 0 && activation.value().compareTo(allowed) > 0;
  }

  /**
   * Standard uncertainty of the share: {@code u(s) = (u/P) sqrt(1 + s^2 + (1-s)^2)}, the readings
   * being independent (law of propagation, JCGM 100:2008, 5.1.2).
   */
  public Reckoned<Double> shareUncertainty() {
    return share()
        .map(
            share -> {
              double s = share.asDouble();
              double relative = error.standardUncertainty() / path.asDouble();
              return relative * Math.sqrt(1 + s * s + (1 - s) * (1 - s));
            });
  }

  /** Standard uncertainty of a difference of two readings, in millimetres. */
  public double differenceUncertainty() {
    return error.standardUncertainty() * Math.sqrt(2);
  }

  /** Standard uncertainty of the unexplained overjet, which rests on four readings. */
  public double unexplainedUncertainty() {
    return error.standardUncertainty() * 2;
  }
}
