package org.intercusp.registry.report;

import java.util.Arrays;
import java.util.Optional;
import org.intercusp.analysis.agreement.CumulativeIncidence;
import org.intercusp.analysis.agreement.Funnel;
import org.intercusp.analysis.agreement.Pairs;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.agreement.SurvivalCurve;
import org.intercusp.analysis.cohort.CaseMix;
import org.intercusp.analysis.index.ComplexityIndex;
import org.intercusp.analysis.index.DentalHealth;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.finding.Source;

/** What is reported, with its definition and where that comes from. */
public enum Measure {
  COUNTING(
      "counting",
      "Counted once",
      "{case}",
      "Rows read and why some do not count. The same person and treatment twice: the last accepted counts (corrected, if by the same submitter; second-submitter, if by another). A transferred case with a record at another clinic that is fitted no earlier is followed there, whichever was accepted first (transferred-on); of two that were transferred, and where a fitting is not dated, the one accepted later goes on. Two treatments of one person fitted first in the same month (quarter or year, as dates are reduced) are one (same-fitting). What was first fitted after the cut-off does not count yet (not-begun). Counts of records, not of patients, are hidden only where there are fewer cases than the threshold."),
  STANDING(
      "standing",
      "Where cases stand",
      "{case}",
      "Cases counted once that were fitted by the cut-off or have no fitting, by their state at the cut-off, which is the last day of a month, quarter or year, as dates are reduced: the last one over on the day asked for. What was decided or scored later had not happened yet, here and in every figure; visits, wear, breakages and adverse events carry no dates and count as told. Rows count whenever they were accepted, since what happened up to a day is submitted after it."),
  PAR_UK("par-uk", "PAR, UK weights, all with an end score", "{score}", ParText.TEXT),
  PAR_US("par-us", "PAR, US weights, all with an end score", "{score}", ParText.TEXT),
  PAR_UK_COMPLETED(
      "par-uk-completed",
      "PAR, UK weights, completed alone",
      "{score}",
      "As PAR of all with an end score, for treatments completed by the cut-off; known: of these."),
  PAR_US_COMPLETED(
      "par-us-completed",
      "PAR, US weights, completed alone",
      "{score}",
      "As PAR of all with an end score, for treatments completed by the cut-off; known: of these."),
  DHC(
      "dhc",
      "Dental health component",
      "{case}",
      "Cases with a grade at start and end by the cut-off: grade lower (better), same, or higher (worse) at the end. Need for treatment: grade 4 or 5, or 3 with an aesthetic component of 6 or more, of cases where it can be told at both."),
  ICON(
      "icon",
      "ICON",
      "{score}",
      "Cases with a score at start and end by the cut-off; classes of improvement by before less four times after: above -1 greatly, -25 to -1 substantially, -53 to -26 moderately, -85 to -54 minimally, below not."),
  OVERJET(
      "overjet",
      "Overjet",
      "mm",
      "Cases measured at start and end by the cut-off; forward is positive, change is start less end, interval of its mean by Student's distribution."),
  OVERBITE(
      "overbite",
      "Overbite",
      "mm",
      "Cases measured at start and end by the cut-off; overlap is positive, change is start less end, interval of its mean by Student's distribution."),
  LENGTH(
      "length",
      "Length of treatment",
      "d",
      "Days from the first active fitting. Curve A: completion or discontinuation is the event. Curve B: completion; the discontinued are censored when last attended. In treatment censored at the cut-off (fitting taken as the middle of the month, quarter or year its date is reduced to), transferred and those of whom nobody knows whether they ended when last attended; events before censorings of one day. Median: first day with half or fewer left. Groups are counted in whole weeks."),
  LENGTH_CURVE(
      "length-curve",
      "Length of treatment, curves",
      "%",
      "Share still treated by curves A and B with log-log intervals, and share completed while discontinuation competes (Aalen-Johansen, normal interval), since 1 less B overstates it. Shown at days between which no count of ends lies below the threshold, while enough cases are followed."),
  DISCONTINUATION(
      "discontinuation",
      "Discontinued",
      "{case}",
      "Stopped by the patient, lost to follow-up or discontinued by the clinician, among cases first fitted at least 24 months before the cut-off by the last day their reduced date may mean; transferred and in treatment left out. Share of all (unknown ends count) and of known ends; Wilson intervals."),
  WEAR_REPORTED(
      "wear-reported",
      "Wear as reported",
      "h/d",
      "Mean over cases of each case's mean hours a day as the patient said; interval by Student's distribution."),
  WEAR_MEASURED(
      "wear-measured",
      "Wear as measured",
      "h/d",
      "Mean over cases of each case's mean hours a day by a sensor; interval by Student's distribution."),
  BREAKAGES(
      "breakages",
      "Breakages",
      "{case}",
      "Cases with a breakage, with Wilson's interval, and breakages a case."),
  HARMS(
      "adverse-events",
      "Adverse events",
      "{case}",
      "Cases with at least one adverse event, serious ones and each kind, of all cases; Wilson intervals."),
  FUNNEL_DISCONTINUED(
      "funnel-discontinued",
      "Discontinued, across clinics",
      "%",
      FunnelText.TEXT + " Discontinued among known ends; known: of all ends."),
  FUNNEL_GREATLY(
      "funnel-greatly-improved",
      "Greatly improved, across clinics",
      "%",
      FunnelText.TEXT
          + " Greatly improved (UK weights) among cases of 22 points and more at start with an end score; known: of these and of the ended without one."),
  MIX_DISCONTINUED(
      "case-mix-discontinued", "Discontinued, adjusted for case mix", "%", MixText.TEXT),
  MIX_GREATLY(
      "case-mix-greatly-improved", "Greatly improved, adjusted for case mix", "%", MixText.TEXT),
  AGREEMENT(
      "agreement",
      "Examiner agreement",
      "{score}",
      "Cases scored twice by the cut-off, weighted PAR (UK): bias, limits of agreement at 1.96 standard deviations, method error (Dahlberg), ICC(2,1) with its interval."),
  COMPLETENESS(
      "completeness",
      "Completeness",
      "%",
      "Cases in which a field is present, of all cases; scores and measurements by the cut-off. How many lack it is hidden only where another count that is hidden would follow.");

  private final String code;
  private final String title;
  private final String unit;
  private final String definition;

  Measure(String code, String title, String unit, String definition) {
    this.code = code;
    this.title = title;
    this.unit = unit;
    this.definition = definition;
  }

  public String code() {
    return code;
  }

  public String title() {
    return title;
  }

  /** UCUM unit of its means; counts are cases and shares per cent whatever it is. */
  public String unit() {
    return unit;
  }

  public Source source() {
    return switch (this) {
      case COUNTING, STANDING, OVERJET, OVERBITE, WEAR_REPORTED, WEAR_MEASURED, COMPLETENESS ->
          Source.COMMON_PRACTICE;
      case PAR_UK, PAR_UK_COMPLETED -> ParWeighting.UK.sourceWithTables();
      case PAR_US, PAR_US_COMPLETED -> ParWeighting.US.sourceWithTables();
      case DHC -> DentalHealth.SOURCE;
      case ICON -> ComplexityIndex.SOURCE;
      case LENGTH -> SurvivalCurve.SOURCE;
      case LENGTH_CURVE -> CumulativeIncidence.SOURCE;
      case DISCONTINUATION, BREAKAGES, HARMS -> Proportion.SOURCE;
      case FUNNEL_DISCONTINUED, FUNNEL_GREATLY -> Funnel.SOURCE;
      case MIX_DISCONTINUED, MIX_GREATLY -> CaseMix.SOURCE;
      case AGREEMENT -> Pairs.LIMITS_OF_AGREEMENT;
    };
  }

  public String definition() {
    return definition;
  }

  /** The measure of a code. */
  public static Optional<Measure> of(String code) {
    return Arrays.stream(values()).filter(each -> each.code.equals(code)).findFirst();
  }

  /** A text two measures share. */
  private static final class ParText {
    static final String TEXT =
        "Cases with both scores by the cut-off and more than 0 at start. Mean reduction by two readings: mean of each case's percentage (Student's interval; above 70 is the high standard) and 100 (sum before - sum after) / sum before (delta-method interval). Greatly improved: at least 22 points and 30 %; improved: at least 30 %; else worse or no different. Wilson intervals.";
  }

  private static final class FunnelText {
    static final String TEXT =
        "Each clinic against the share over all, with exact and normal limits at 1.96 and 3.09. With ten clinics or more and phi above 1 + 2 sqrt(2 / clinics), limits move from the centre by sqrt(phi), phi from z drawn in at the 10th and 90th percentile. A clinic with under 80 % known is shown, not judged, and one that is hidden does not count towards phi.";
  }

  private static final class MixText {
    static final String TEXT =
        "Logistic model of age, sex, PAR at start in tens and growth stage (missing a level of its own) over all clinics, none for the clinic; a level with fewer than 10 of either outcome has no term and counts with the reference; withheld below 10 of the rarer outcome a coefficient. Rate O / E x p0, z = (O - E) / sqrt(sum p (1 - p)); a clinic with under 80 % of the funnel's cases in the model is shown, not judged; fit: c, Brier score and calibration slope on patterns the model was not fitted on.";
  }
}
