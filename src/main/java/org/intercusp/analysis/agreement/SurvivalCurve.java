package org.intercusp.analysis.agreement;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;

/**
 * Product-limit estimate of the share still without the event, with Greenwood's variance and the
 * log-log interval. A competing end counts as censored here; events come before censorings of the
 * same time (J Am Stat Assoc 1958;53:457-481, from memory).
 */
public record SurvivalCurve(int cases, List<Step> steps) {

  public static final Source SOURCE = Source.memoryOf("J Am Stat Assoc 1958;53:457-481");

  /** A product of shares that is one half may come out a hair above it. */
  private static final double HALF = 0.5 + 1e-12;

  public SurvivalCurve {
    steps = List.copyOf(steps);
  }

  public static SurvivalCurve of(List<Followed> cases) {
    return of(byTime(cases), cases.size());
  }

  /** The same from counts of ends by time. */
  public static SurvivalCurve of(EndCounts counts) {
    return of(counts.byTime(), counts.cases());
  }

  private static SurvivalCurve of(SortedMap<Double, Tally> byTime, int cases) {
    List<Step> steps = new ArrayList<>();
    int atRisk = cases;
    double survival = 1;
    double greenwood = 0;
    for (var at : byTime.entrySet()) {
      Tally tally = at.getValue();
      int events = tally.events;
      if (events > 0) {
        survival *= (double) (atRisk - events) / atRisk;
        greenwood += (double) events / atRisk / (atRisk - events);
        steps.add(new Step(at.getKey(), atRisk, events, survival, greenwood));
      }
      atRisk -= tally.all();
    }
    return new SurvivalCurve(cases, steps);
  }

  static SortedMap<Double, Tally> byTime(List<Followed> cases) {
    SortedMap<Double, Tally> tallies = new TreeMap<>();
    for (Followed each : cases) {
      Tally tally = tallies.computeIfAbsent(each.time() + 0.0, time -> new Tally());
      tally.add(each.ending(), 1);
    }
    return tallies;
  }

  /** The share without the event at a time: 1 before the first. */
  public double at(double time) {
    double survival = 1;
    for (Step step : steps) {
      if (step.time() > time) {
        break;
      }
      survival = step.survival();
    }
    return survival;
  }

  /** The first time at which no more than half are without the event. */
  public Optional<Double> median() {
    return steps.stream().filter(step -> step.survival() <= HALF).map(Step::time).findFirst();
  }

  /** What ends at one time. */
  static final class Tally {
    int events;
    int competing;
    int censored;

    void add(Followed.Ending ending, int cases) {
      switch (ending) {
        case EVENT -> events += cases;
        case COMPETING -> competing += cases;
        case CENSORED -> censored += cases;
      }
    }

    int of(Followed.Ending ending) {
      return switch (ending) {
        case EVENT -> events;
        case COMPETING -> competing;
        case CENSORED -> censored;
      };
    }

    int all() {
      return events + competing + censored;
    }
  }

  /**
   * The curve from one event time to the next.
   *
   * @param survival share without the event, 0 to 1
   * @param greenwood Greenwood's sum, infinite once all have had the event
   */
  public record Step(double time, int atRisk, int events, double survival, double greenwood) {

    public double standardError() {
      return survival == 0 ? 0 : survival * Math.sqrt(greenwood);
    }

    /** The interval on the scale of log(-log S); none once all have had the event. */
    public Reckoned<Interval> interval(double level) {
      if (survival == 0) {
        return Reckoned.lacking("all have had the event, so no interval can be drawn");
      }
      double reach =
          Interval.normalQuantile(level) * Math.sqrt(greenwood) / Math.abs(Math.log(survival));
      return Reckoned.known(
          new Interval(
              Math.pow(survival, Math.exp(reach)), Math.pow(survival, Math.exp(-reach)), level));
    }
  }
}
