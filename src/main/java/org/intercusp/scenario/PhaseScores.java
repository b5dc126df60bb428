package org.intercusp.scenario;

import java.time.LocalDate;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.intercusp.treatment.submission.Course.Assessment;

/**
 * What is scored at the phases of one invented course. Overjet at the start has mean 9 and spread 2
 * as in trials of functional appliances (from memory of AJODO 2003;124:234-243); the rest is common
 * practice, no source. Bands of the components are those of Eur J Orthod 1992;14:125-139.
 */
final class PhaseScores {

  private final Draw draw;
  private final Practice practice;
  private final double overjet;
  private final double overbite;
  private final double molar;
  private final double upper;
  private final double lower;
  private final double centreline;
  private final boolean crossbite;

  PhaseScores(Draw draw, Practice practice) {
    this.draw = draw;
    this.practice = practice;
    this.overjet = draw.normal(9, 2, 5, 15);
    this.overbite = draw.normal(4.2, 1.9, -1, 8);
    this.molar = draw.normal(4.8, 1.8, 0.5, 8);
    this.upper = draw.normal(6, 3, 0, 20);
    this.lower = draw.normal(4, 2.5, 0, 16);
    this.centreline = draw.normal(0.3, 0.3, 0, 1.5);
    this.crossbite = draw.chance(0.1);
  }

  /**
   * One assessment.
   *
   * @param done share of the correction that is reached
   * @param braces whether fixed braces have aligned the teeth
   */
  Assessment at(Phase phase, LocalDate on, double done, boolean braces) {
    double reached = done * practice.skill();
    double over = Math.max(1.5, overjet - (overjet - 2.5) * reached + draw.normal(0, 0.6, -2, 2));
    double bite = overbite - (overbite - 2) * 0.8 * reached + draw.normal(0, 0.5, -1.5, 1.5);
    double irregular = braces ? 0.12 : 1 - 0.25 * done;
    double relation = Math.max(0, molar * (1 - reached));
    Par par = par(over, bite, relation, irregular, done);
    boolean scored = kept(0.93);
    boolean again = scored && draw.chance(0.04);
    return new Assessment(
        phase,
        on,
        kept(0.97) || !scored ? Draw.half(over) : null,
        kept(0.96) ? Draw.half(bite) : null,
        scored ? par : null,
        again ? rescored(par) : null,
        kept(0.7) ? Bands.grade(over) : null,
        kept(0.45) ? icon(over, bite, relation, irregular, done) : null,
        kept(0.55) ? aesthetic(over, irregular) : null);
  }

  private boolean kept(double probability) {
    return draw.chance(Math.min(1, probability * practice.diligence()));
  }

  private Par par(double over, double bite, double relation, double irregular, double done) {
    return new Par(
        points(upper * irregular + draw.normal(0, 0.8, -2, 2), 25),
        points(lower * irregular + draw.normal(0, 0.8, -2, 2), 25),
        buccal(relation + draw.normal(0, 0.7, -2, 2), done),
        buccal(relation + draw.normal(0, 0.7, -2, 2), done),
        Bands.steps(over, 3, 5, 7, 9),
        bite < 0
            ? Bands.steps(-bite, 0.01, 1, 2, 3)
            : Bands.steps(bite / 8, 1.0 / 3, 2.0 / 3, 0.999),
        Bands.steps(centreline * (1 - 0.6 * done), 0.25, 0.5));
  }

  private int buccal(double relation, double done) {
    return Bands.steps(relation, 1, 3) + (crossbite && done < 0.5 ? 2 : 0);
  }

  /** A second examiner differs by a point here and there. */
  private Par rescored(Par first) {
    return new Par(
        points(first.upperAnterior() + slip(0.35), 25),
        points(first.lowerAnterior() + slip(0.35), 25),
        points(first.buccalRight() + slip(0.2), 7),
        points(first.buccalLeft() + slip(0.2), 7),
        points(first.overjet() + slip(0.06), 8),
        points(first.overbite() + slip(0.12), 4),
        points(first.centreline() + slip(0.08), 2));
  }

  private double slip(double probability) {
    return draw.chance(probability) ? draw.chance(0.5) ? 1 : -1 : 0;
  }

  private Icon icon(double over, double bite, double relation, double irregular, double done) {
    return new Icon(
        aesthetic(over, irregular),
        points(upper * irregular / 4, 5),
        crossbite && done < 0.5 ? 1 : 0,
        Bands.steps(bite / 8, 1.0 / 3, 2.0 / 3, 0.999),
        Bands.steps(relation, 1, 3),
        Bands.steps(relation, 1, 3));
  }

  private int aesthetic(double over, double irregular) {
    return Math.max(
        1, points(1 + over * 0.55 + upper * irregular * 0.15 + draw.normal(0, 0.8, -2, 2), 10));
  }

  private static int points(double value, int most) {
    return (int) Math.max(0, Math.min(most, StrictMath.round(value)));
  }
}
