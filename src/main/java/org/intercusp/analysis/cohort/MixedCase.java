package org.intercusp.analysis.cohort;

import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.Sex;
import org.jspecify.annotations.Nullable;

/**
 * What a case brought with it, for the adjustment of a clinic's rate.
 *
 * @param clinic key of the clinic; never a covariate
 * @param age in years at the first active fitting
 * @param parBefore weighted rating before treatment, in points
 * @param growth growth stage; absent is a level of its own
 * @param outcome what the rate counts
 */
public record MixedCase(
    String clinic,
    double age,
    Sex sex,
    int parBefore,
    @Nullable GrowthStage growth,
    Outcome outcome) {

  public MixedCase {
    if (!(age >= 0) || Double.isInfinite(age)) {
      throw new IllegalArgumentException("an age is finite and not negative");
    }
  }

  int happened() {
    return outcome == Outcome.HAPPENED ? 1 : 0;
  }

  /** Age, sex, rating in tens, growth; the reference is a girl around the peak. */
  double[] covariates() {
    return new double[] {
      age,
      sex == Sex.MALE ? 1 : 0,
      sex == Sex.OTHER || sex == Sex.UNKNOWN ? 1 : 0,
      parBefore / 10.0,
      growth == GrowthStage.CS1 || growth == GrowthStage.CS2 ? 1 : 0,
      growth == GrowthStage.CS5 || growth == GrowthStage.CS6 ? 1 : 0,
      growth == null ? 1 : 0
    };
  }

  /** Whether what the rate counts happened. */
  public enum Outcome {
    HAPPENED,
    DID_NOT_HAPPEN
  }
}
