package org.intercusp.registry.report;

import org.jspecify.annotations.Nullable;

/**
 * One number of the report, the same in every form of it.
 *
 * @param value in the statistic's unit; absent when hidden or not to be had
 * @param absent why there is no value: {@link #HIDDEN}, or what it lacks
 */
public record Figure(
    Measure measure,
    Slice slice,
    Statistic statistic,
    @Nullable Double value,
    @Nullable String absent) {

  /** A small cell, or one from which a small cell could be worked out. */
  public static final String HIDDEN = "hidden";

  public Figure {
    if ((value == null) == (absent == null)) {
      throw new IllegalArgumentException("a figure has a value or says why it has none");
    }
    if (value != null && !Double.isFinite(value)) {
      throw new IllegalArgumentException(
          measure.code() + " " + statistic.code() + " is not finite");
    }
  }

  public boolean hidden() {
    return HIDDEN.equals(absent);
  }
}
