package org.intercusp.analysis.cohort;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.agreement.CumulativeIncidence;
import org.intercusp.analysis.agreement.Followed;
import org.intercusp.analysis.agreement.SurvivalCurve;
import org.intercusp.analysis.cohort.Treated.Curve;

/**
 * Length of treatment in days from the first active fitting.
 *
 * @param anyEnd curve A: completion or discontinuation is the event
 * @param completion curve B: completion is the event, the discontinued censored when last attended
 * @param completed share completed by each day while discontinuation competes; one less curve B
 *     overstates it
 * @param left cases left out: nobody knows their end nor when they were last seen, or they were
 *     fitted after the cut-off
 */
public record TreatmentLength(
    SurvivalCurve anyEnd, SurvivalCurve completion, CumulativeIncidence completed, int left) {

  public static TreatmentLength of(List<Treated> cases, LocalDate cutOff) {
    List<Followed> any = followed(cases, cutOff, Curve.ANY_END);
    List<Followed> planned = followed(cases, cutOff, Curve.COMPLETION);
    return new TreatmentLength(
        SurvivalCurve.of(any),
        SurvivalCurve.of(planned),
        CumulativeIncidence.of(planned),
        cases.size() - any.size());
  }

  private static List<Followed> followed(List<Treated> cases, LocalDate cutOff, Curve curve) {
    return cases.stream()
        .map(each -> each.followed(cutOff, curve))
        .flatMap(Optional::stream)
        .toList();
  }
}
