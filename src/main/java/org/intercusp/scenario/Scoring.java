package org.intercusp.scenario;

import java.util.List;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeScores;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;

/**
 * The scores an invented examiner gives, where findings were not kept: near what the indices would
 * give (Eur J Orthod 1992;14:125-139), with an examiner's slips, and never beside findings.
 */
final class Scoring {

  private final Draw draw;

  Scoring(Draw draw) {
    this.draw = draw;
  }

  OutcomeScores of(OutcomeFindings findings) {
    boolean par = draw.chance(0.95);
    boolean dhc = !par || draw.chance(0.7);
    return new OutcomeScores(
        par ? par(findings) : null,
        dhc ? Bands.grade(findings.overjet().asDouble()) : null,
        draw.chance(0.4) ? icon(findings) : null);
  }

  private Par par(OutcomeFindings findings) {
    return new Par(
        anterior(findings.contacts().upper()),
        anterior(findings.contacts().lower()),
        buccal(findings.buccal().right()),
        buccal(findings.buccal().left()),
        Bands.steps(findings.overjet().asDouble(), 3, 5, 7, 9),
        Bands.steps(findings.overbiteCover().asDouble(), 1.0 / 3, 2.0 / 3, 0.999),
        Bands.steps(findings.centreline().asDouble(), 0.25, 0.5));
  }

  private static int anterior(List<Contact> contacts) {
    int sum = 0;
    for (Contact contact : contacts) {
      if (contact instanceof Contact.Displaced displaced) {
        sum += Bands.steps(displaced.by().asDouble(), 1, 2, 4, 8);
      } else if (contact instanceof Contact.Impacted) {
        sum += 5;
      }
    }
    return sum;
  }

  private static int buccal(Buccal buccal) {
    int across =
        switch (buccal.transverse()) {
          case NONE -> 0;
          case TENDENCY -> 1;
          case ONE -> 2;
          case SEVERAL -> 3;
          case SCISSOR_SEVERAL -> 4;
        };
    return lengthwise(buccal) + (buccal.open() ? 1 : 0) + across;
  }

  private static int lengthwise(Buccal buccal) {
    return switch (buccal.anteroposterior()) {
      case FULL -> 0;
      case UNDER_HALF -> 1;
      case HALF -> 2;
    };
  }

  private static Icon icon(OutcomeFindings findings) {
    return new Icon(
        findings.aestheticComponent(),
        Bands.steps(findings.upperCrowding().asDouble(), 2, 5, 9, 13, 17),
        findings.crossbite() ? 1 : 0,
        Bands.steps(findings.overbiteCover().asDouble(), 1.0 / 3, 2.0 / 3, 0.999),
        lengthwise(findings.buccal().right()),
        lengthwise(findings.buccal().left()));
  }
}
