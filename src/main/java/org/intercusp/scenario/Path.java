package org.intercusp.scenario;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import org.intercusp.treatment.BothSides;
import org.jspecify.annotations.Nullable;

/** How one invented mouth changes over the months: what is true, before anybody measures it. */
final class Path {

  /** A twelfth of 365.25 days. */
  private static final double DAYS_A_MONTH = 30.44;

  private final Mouth mouth;
  private final double rate;
  private final double finalOverjet;
  private final double finalOverbite;
  private final double relapse;
  private final double openBite;
  final double wear;
  final int activeMonths;
  final int supportMonths;
  final int fixedMonths;
  final int retentionMonths;
  private final @Nullable LocalDate fittedOn;

  Path(Draw draw, Mouth mouth, Plan plan) {
    this.mouth = mouth;
    this.fittedOn = plan.appliance.fittedOn();
    // Achieved wear 8.78 and 12.38 h a day, change 0.58 and 0.54 mm a month with SD near 0.24:
    // Parekh 2019 trial.
    this.wear = draw.normal(10.6, 4.3, 0.5, 22);
    double pace = StrictMath.sqrt(wear / 10.6) * draw.normal(1, 0.3, 0.3, 1.8);
    this.rate = 0.56 * pace;
    this.finalOverjet = draw.normal(2, 0.7, -0.5, 3.5);
    this.finalOverbite = draw.normal(2.5, 0.6, 1, 4);
    // Mean relapse of the overjet in a year of retention 0.67 mm: clinical.md, outcome-relapse.
    this.relapse = draw.normal(0.67, 0.6, 0, 3);
    this.openBite = Math.max(2, mouth.overbite) * 0.6;
    double toGoal = Math.max(0, mouth.overjet - finalOverjet) / rate;
    // One trial's active phase averaged 340 days, SD 102: Campbell 2020.
    this.activeMonths = (int) Math.max(6, Math.min(14, StrictMath.ceil(toGoal) + 1));
    this.supportMonths = draw.whole(4, 6);
    this.fixedMonths = draw.chance(0.4) ? draw.whole(9, 15) : 0;
    this.retentionMonths = draw.whole(9, 12);
  }

  /** Months since the fitting, zero before it. */
  private double months(LocalDate on) {
    return fittedOn == null ? 0 : Math.max(0, ChronoUnit.DAYS.between(fittedOn, on) / DAYS_A_MONTH);
  }

  double overjet(LocalDate on) {
    double corrected = Math.max(Math.min(finalOverjet, mouth.overjet), mouth.overjet - gain(on));
    double retained = months(on) - activeMonths - supportMonths - fixedMonths;
    return corrected + relapse * Math.max(0, Math.min(12, retained)) / 12;
  }

  private double gain(LocalDate on) {
    // Nothing more is gained once the blocks are put away.
    return rate * Math.min(months(on), activeMonths);
  }

  /** How much of the way to the final overjet is done. */
  double done(LocalDate on) {
    double way = mouth.overjet - finalOverjet;
    return way <= 0 ? 1 : Math.max(0, Math.min(1, gain(on) / way));
  }

  double overbite(LocalDate on) {
    return mouth.overbite + (finalOverbite - mouth.overbite) * done(on);
  }

  double molar(double before, LocalDate on) {
    return before * (1 - 0.95 * done(on));
  }

  BothSides molars(LocalDate on) {
    return new BothSides(
        Draw.half(molar(mouth.molarRight, on)), Draw.half(molar(mouth.molarLeft, on)));
  }

  /** The posterior open bite that the blocks leave, closing until the end of the support. */
  double posteriorOpenBite(LocalDate on) {
    double month = months(on);
    double closes = activeMonths + supportMonths - 1.0;
    return openBite * Math.min(1, month / 3) * Math.max(0, 1 - month / closes);
  }
}
