package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.finding.Source;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeScores;

/**
 * Index of complexity, outcome and need, in points (from memory of J Orthod 2000;27:149-162):
 * {@code 7 aesthetic + 5 crowding or spacing + 5 crossbite + 4 vertical + 3 (buccal right + left)}.
 */
public final class ComplexityIndex {

  public static final Source SOURCE = Source.memoryOf("J Orthod 2000;27:149-162");

  private static final Bands CROWDING = Bands.upTo("2", "5", "9", "13", "17");
  private static final Bands SPACING = Bands.upTo("2", "5", "9");
  private static final int IMPACTED = 5;
  private static final Bands OPEN_BITE = Bands.upTo("0", "1", "2", "4");
  private static final Bands THIRDS_COVERED = Bands.upTo("1", "2");
  private static final BigDecimal THREE = BigDecimal.valueOf(3);
  private static final int FULLY_COVERED = 3;
  private static final int NEED_ABOVE = 43;
  private static final int ACCEPTABLE_BELOW = 31;

  private ComplexityIndex() {}

  /** Components from findings; impacted upper teeth make the crowding 5. */
  public static OutcomeScores.Icon components(OutcomeFindings findings) {
    return components(findings, BigDecimal.ZERO);
  }

  /** Components if every reading in millimetres were larger by so much. */
  static OutcomeScores.Icon components(OutcomeFindings findings, BigDecimal more) {
    return new OutcomeScores.Icon(
        findings.aestheticComponent(),
        crowdingSpacing(findings, more),
        crossbite(findings) ? 1 : 0,
        vertical(findings, more),
        buccal(findings.buccal().right()),
        buccal(findings.buccal().left()));
  }

  public static int score(OutcomeScores.Icon icon) {
    return 7 * icon.aesthetic()
        + 5 * icon.crowdingSpacing()
        + 5 * icon.crossbite()
        + 4 * icon.vertical()
        + 3 * (icon.buccalRight() + icon.buccalLeft());
  }

  /** Above 43 treatment is needed. */
  public static boolean needsTreatment(int score) {
    return score > NEED_ABOVE;
  }

  /** Below 31 the outcome is acceptable. */
  public static boolean acceptable(int score) {
    return score < ACCEPTABLE_BELOW;
  }

  /** Points of improvement: before less four times after. */
  public static int improvement(int before, int after) {
    return before - 4 * after;
  }

  private static int crowdingSpacing(OutcomeFindings findings, BigDecimal more) {
    if (upperImpacted(findings.contacts().upper())) {
      return IMPACTED;
    }
    return Math.max(
        CROWDING.of(findings.upperCrowding().absolute().value().add(more)),
        SPACING.of(findings.upperSpacing().absolute().value().add(more)));
  }

  private static boolean upperImpacted(List<Contact> contacts) {
    return contacts.stream().anyMatch(Contact.Impacted.class::isInstance);
  }

  private static boolean crossbite(OutcomeFindings findings) {
    return findings.crossbite()
        || findings.lingualCrossbiteNoContact()
        || findings.teethEdgeToEdge() > 0
        || findings.teethInAnteriorCrossbite() > 0;
  }

  private static int vertical(OutcomeFindings findings, BigDecimal more) {
    BigDecimal cover = findings.overbiteCover().value();
    int covered =
        cover.compareTo(BigDecimal.ONE) >= 0
            ? FULLY_COVERED
            : THIRDS_COVERED.of(cover.multiply(THREE));
    return Math.max(covered, OPEN_BITE.of(findings.overbite().negated().value().add(more)));
  }

  private static int buccal(Buccal segment) {
    return switch (segment.anteroposterior()) {
      case FULL -> 0;
      case UNDER_HALF -> 1;
      case HALF -> 2;
    };
  }

  /** The class of improvement of a score before and after. */
  public static Improvement improvementClass(int before, int after) {
    int points = improvement(before, after);
    if (points > -1) {
      return Improvement.GREATLY_IMPROVED;
    }
    if (points >= -25) {
      return Improvement.SUBSTANTIALLY_IMPROVED;
    }
    if (points >= -53) {
      return Improvement.MODERATELY_IMPROVED;
    }
    return points >= -85 ? Improvement.MINIMALLY_IMPROVED : Improvement.NOT_IMPROVED_OR_WORSE;
  }

  /** Classes of improvement, the worst first. */
  public enum Improvement {
    NOT_IMPROVED_OR_WORSE("not improved or worse"),
    MINIMALLY_IMPROVED("minimally improved"),
    MODERATELY_IMPROVED("moderately improved"),
    SUBSTANTIALLY_IMPROVED("substantially improved"),
    GREATLY_IMPROVED("greatly improved");

    private final String shown;

    Improvement(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }
  }
}
