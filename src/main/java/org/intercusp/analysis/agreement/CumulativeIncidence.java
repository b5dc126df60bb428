package org.intercusp.analysis.agreement;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import org.intercusp.finding.Source;

/**
 * Aalen-Johansen estimate of the share that has had the event by a time while a competing end can
 * forestall it, with the delta-method variance (Scand J Stat 1978;5:141-150, from memory). One less
 * {@link SurvivalCurve} overstates it as soon as anything competes.
 */
public record CumulativeIncidence(int cases, List<Step> steps) {

  public static final Source SOURCE = Source.memoryOf("Scand J Stat 1978;5:141-150");

  public CumulativeIncidence {
    steps = List.copyOf(steps);
  }

  public static CumulativeIncidence of(List<Followed> cases) {
    return of(SurvivalCurve.byTime(cases), cases.size());
  }

  /** The same from counts of ends by time. */
  public static CumulativeIncidence of(EndCounts counts) {
    return of(counts.byTime(), counts.cases());
  }

  private static CumulativeIncidence of(SortedMap<Double, SurvivalCurve.Tally> byTime, int cases) {
    List<Jump> jumps = new ArrayList<>();
    List<Step> steps = new ArrayList<>();
    int atRisk = cases;
    double free = 1;
    double incidence = 0;
    for (var at : byTime.entrySet()) {
      SurvivalCurve.Tally tally = at.getValue();
      int ended = tally.events + tally.competing;
      if (ended > 0) {
        incidence += free * tally.events / atRisk;
        jumps.add(new Jump(atRisk, tally.events, ended, free, incidence));
        free *= (double) (atRisk - ended) / atRisk;
      }
      if (tally.events > 0) {
        double error = Math.sqrt(Math.max(0, variance(jumps, incidence)));
        steps.add(new Step(at.getKey(), atRisk, tally.events, incidence, error));
      }
      atRisk -= tally.all();
    }
    return new CumulativeIncidence(cases, steps);
  }

  private static double variance(List<Jump> jumps, double incidence) {
    double sum = 0;
    for (Jump jump : jumps) {
      double n = jump.atRisk;
      double since = incidence - jump.incidence;
      double left = n - jump.ended;
      if (left > 0) {
        sum += since * since * jump.ended / (n * left);
      }
      sum += jump.free * jump.free * (n - jump.events) * jump.events / (n * n * n);
      sum -= 2 * since * jump.free * jump.events / (n * n);
    }
    return sum;
  }

  /** The share that has had the event by a time. */
  public double at(double time) {
    double incidence = 0;
    for (Step step : steps) {
      if (step.time() > time) {
        break;
      }
      incidence = step.incidence();
    }
    return incidence;
  }

  /** The estimate from one event time to the next, a share 0 to 1. */
  public record Step(double time, int atRisk, int events, double incidence, double standardError) {}

  private record Jump(int atRisk, int events, int ended, double free, double incidence) {}
}
