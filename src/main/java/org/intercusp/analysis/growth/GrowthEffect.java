package org.intercusp.analysis.growth;

import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.treatment.GrowthStage;

/**
 * Mandibular length gained in a year of removable functional treatment over growth without it, in
 * millimetres, with its 95 % interval (PLoS One 2015, meta-analysis of removable functional
 * appliances).
 */
public record GrowthEffect(Length aYear, Length low, Length high) {

  public static final Source SOURCE =
      Source.published("PLoS One 2015, meta-analysis of removable functional appliances");

  private static final GrowthEffect BEFORE_PEAK =
      new GrowthEffect(Length.of("0.95"), Length.of("0.38"), Length.of("1.51"));

  /** Of treatment around the peak of growth, CS3 and CS4. */
  public static final GrowthEffect AT_PEAK =
      new GrowthEffect(Length.of("2.91"), Length.of("2.04"), Length.of("3.79"));

  /** CS1 and CS2 lie before the peak, CS3 and CS4 around it; after it no effect was published. */
  public static Reckoned<GrowthEffect> at(GrowthStage stage) {
    return switch (stage) {
      case CS1, CS2 -> Reckoned.known(BEFORE_PEAK);
      case CS3, CS4 -> Reckoned.known(AT_PEAK);
      case CS5, CS6 -> Reckoned.lacking("no effect is published for treatment after the peak");
    };
  }

  String range() {
    return low.value().toPlainString() + " to " + high.value().toPlainString() + " mm";
  }
}
