package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Source;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;

/**
 * Dental health component of the index of orthodontic treatment need: the single worst trait,
 * searched in the order missing, overjet, crossbite, displacement, overbite, the first found naming
 * the grade (Eur J Orthod 1989;11:309-320, some letters from memory of it). Third molars and
 * deciduous teeth count neither as missing nor as impeded; speech and mastication must both be
 * reported for 4m and 5m.
 *
 * @param code grade and letter, {@code 1} without one
 * @param borderline whether readings larger or smaller by their standard uncertainty make another
 *     grade
 */
public record DentalHealth(String code, boolean borderline) {

  public static final Source SOURCE =
      Source.partlyMemory("Eur J Orthod 1989;11:309-320", "some letters from memory of it");

  private static final Bands OVERJET = Bands.upTo("3.5", "6", "9");
  private static final Bands REVERSE = Bands.upTo("0", "1", "3.5");
  private static final Bands SHIFT = Bands.upTo("1", "2");
  private static final Bands MILLIMETRES = Bands.upTo("1", "2", "4");
  private static final BigDecimal DEEP = new BigDecimal("3.5");
  private static final Trait NONE = new Trait(1, "");

  /** Grade of findings read with so large an error. */
  public static DentalHealth of(OutcomeFindings findings, ReadingError error) {
    BigDecimal u = BigDecimal.valueOf(error.standardUncertainty());
    Trait worst = worst(findings, BigDecimal.ZERO);
    boolean borderline =
        worst(findings, u.negate()).grade() != worst.grade()
            || worst(findings, u).grade() != worst.grade();
    return new DentalHealth(worst.code(), borderline);
  }

  /** The code if every reading were larger by so much. */
  static String code(OutcomeFindings findings, BigDecimal more) {
    return worst(findings, more).code();
  }

  /** The worst trait if every reading were larger by so much; the first of equals. */
  private static Trait worst(OutcomeFindings findings, BigDecimal more) {
    List<Trait> searched = new ArrayList<>(missing(findings));
    searched.add(overjet(findings, more));
    searched.add(crossbite(findings, more));
    searched.add(millimetres(findings.worstDisplacement().value().add(more), "d"));
    searched.add(openBite(findings, more));
    searched.add(deepBite(findings, more));
    searched.add(buccal(findings));
    Trait worst = NONE;
    for (Trait trait : searched) {
      worst = trait.grade() > worst.grade() ? trait : worst;
    }
    return worst;
  }

  public static DentalHealth of(OutcomeFindings findings) {
    return of(findings, ReadingError.RULER);
  }

  public int grade() {
    return gradeOf(code);
  }

  /** The grade in a code such as {@code 4a}. */
  public static int gradeOf(String code) {
    return code.charAt(0) - '0';
  }

  private static List<Trait> missing(OutcomeFindings findings) {
    List<Trait> traits = new ArrayList<>();
    if (findings.cleft()) {
      traits.add(new Trait(5, "p"));
    }
    if (findings.impededTeeth().stream().anyMatch(DentalHealth::counts)) {
      traits.add(new Trait(5, "i"));
    }
    traits.add(hypodontia(findings.missingTeeth()));
    if (!findings.submergedTeeth().isEmpty()) {
      traits.add(new Trait(5, "s"));
    }
    if (!findings.tippedTeeth().isEmpty()) {
      traits.add(new Trait(4, "t"));
    }
    if (findings.supernumerary()) {
      traits.add(new Trait(4, "x"));
    }
    return traits;
  }

  private static Trait hypodontia(List<Tooth> missing) {
    Collection<Long> byQuadrant =
        missing.stream()
            .distinct()
            .filter(DentalHealth::counts)
            .collect(
                Collectors.groupingBy(
                    tooth -> tooth.arch().code() + tooth.side().code(), Collectors.counting()))
            .values();
    if (byQuadrant.isEmpty()) {
      return NONE;
    }
    return new Trait(byQuadrant.stream().anyMatch(count -> count > 1) ? 5 : 4, "h");
  }

  /** A deciduous tooth that is gone has been shed: both traits are of its successor. */
  private static boolean counts(Tooth tooth) {
    return !tooth.deciduous() && tooth.position() < 8;
  }

  private static Trait overjet(OutcomeFindings findings, BigDecimal more) {
    BigDecimal read = findings.overjet().value();
    BigDecimal overjet = read.signum() < 0 ? read.subtract(more) : read.add(more);
    if (overjet.signum() < 0) {
      return reverseOverjet(findings, overjet.negate());
    }
    return switch (OVERJET.of(overjet)) {
      case 0 -> NONE;
      case 1 -> new Trait(findings.lips() == Lips.COMPETENT ? 2 : 3, "a");
      case 2 -> new Trait(4, "a");
      default -> new Trait(5, "a");
    };
  }

  private static Trait reverseOverjet(OutcomeFindings findings, BigDecimal reverse) {
    boolean difficulty = findings.masticatoryDifficulty() && findings.speechDifficulty();
    return switch (REVERSE.of(reverse)) {
      case 0 -> NONE;
      case 1 -> new Trait(2, "b");
      case 2 -> difficulty ? new Trait(4, "m") : new Trait(3, "b");
      default -> difficulty ? new Trait(5, "m") : new Trait(4, "b");
    };
  }

  private static Trait crossbite(OutcomeFindings findings, BigDecimal more) {
    BigDecimal shift = findings.crossbiteShift().absolute().value().add(more);
    boolean crossed = findings.crossbite() || findings.teethInAnteriorCrossbite() > 0;
    Trait discrepancy = crossed ? new Trait(2 + SHIFT.of(shift), "c") : NONE;
    return findings.lingualCrossbiteNoContact() && discrepancy.grade() < 4
        ? new Trait(4, "l")
        : discrepancy;
  }

  private static Trait openBite(OutcomeFindings findings, BigDecimal more) {
    BigDecimal anterior = findings.overbite().negated().value();
    BigDecimal lateral = findings.lateralOpenBite().value();
    return millimetres(anterior.max(lateral).add(more), "e");
  }

  private static Trait millimetres(BigDecimal reading, String letter) {
    int band = MILLIMETRES.of(reading);
    return band == 0 ? NONE : new Trait(band + 1, letter);
  }

  private static Trait deepBite(OutcomeFindings findings, BigDecimal more) {
    boolean deep = findings.overbite().value().add(more).compareTo(DEEP) >= 0;
    return switch (findings.overbiteContact()) {
      case TRAUMA -> new Trait(4, "f");
      case TISSUE -> new Trait(3, "f");
      case NONE, TOOTH -> deep ? new Trait(2, "f") : NONE;
    };
  }

  private static Trait buccal(OutcomeFindings findings) {
    return Stream.of(findings.buccal().right(), findings.buccal().left())
            .anyMatch(side -> side.anteroposterior() != AnteroPosterior.FULL)
        ? new Trait(2, "g")
        : NONE;
  }

  /**
   * One trait as graded.
   *
   * @param grade 1 to 5
   * @param letter the trait's letter; empty in grade 1
   */
  private record Trait(int grade, String letter) {
    String code() {
      return grade + letter;
    }
  }
}
