package org.intercusp.summary.drawing;

import java.util.Optional;
import org.intercusp.analysis.stage.Worn;
import org.intercusp.analysis.trim.TrimDue;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.measure.Length;
import org.intercusp.rules.Examination;
import org.intercusp.rules.rule.Limit;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;

/**
 * What the plan takes off each upper block at the next visit, in mm, and why so much, as {@link
 * TrimDue} reckons it; an amount is zero where nothing is to be trimmed.
 *
 * @param amount off the occlusodistal face of each upper block
 * @param block height left at the molars before it, as the plan reckons it
 * @param why in a few words
 */
public record NextTrim(Length amount, Length block, String why) {

  /**
   * Empty where the appliance is not the one worn or treatment has ended, where it has no stage
   * that trims, or no molar clearance was registered.
   */
  public static Optional<NextTrim> of(
      Treatment treatment, Appliance appliance, Examination examination) {
    if (treatment.hasEnded()
        || Worn.on(treatment, examination.on()).filter(appliance::equals).isEmpty()) {
      return Optional.empty();
    }
    Length little = examination.limits().length(Limit.TRIM_OVERBITE);
    return TrimDue.of(new Trimmed(treatment, appliance, little), examination.on())
        .result()
        .map(next -> new NextTrim(next.amount(), next.block(), next.why()));
  }
}
