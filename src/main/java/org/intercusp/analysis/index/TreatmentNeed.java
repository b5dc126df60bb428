package org.intercusp.analysis.index;

import org.intercusp.finding.Source;

/**
 * Need for treatment as used in England: dental health component 4 or 5, or 3 with an aesthetic
 * component of 6 or more (common practice of the service; no source).
 */
public final class TreatmentNeed {

  public static final Source SOURCE = Source.COMMON_PRACTICE;

  private TreatmentNeed() {}

  /**
   * Whether treatment is needed.
   *
   * @param grade grade of the dental health component, 1 to 5
   * @param aesthetic aesthetic component, 1 to 10
   */
  public static boolean needed(int grade, int aesthetic) {
    return grade >= 4 || (grade == 3 && aesthetic >= 6);
  }
}
