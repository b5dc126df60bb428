package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeScores;
import org.jspecify.annotations.Nullable;

/**
 * Components of the peer assessment rating from findings, unweighted (Eur J Orthod 1992;14:125-139;
 * the tables of buccal segments, overjet, overbite and centreline from memory of it). An arch with
 * a contact that was not measured has the score an examiner gave it; without one there is no
 * rating.
 */
public final class PeerAssessment {

  private static final String CITATION = "Eur J Orthod 1992;14:125-139";

  public static final Source SOURCE =
      Source.partlyMemory(
          CITATION,
          "tables of buccal segments, overjet, overbite and centreline from memory of it");

  /** What was recalled and not read again, beside the source of a weighting. */
  static final String TABLES = "tables from memory of " + CITATION;

  private static final Bands CONTACT = Bands.upTo("1", "2", "4", "8");
  private static final int IMPACTED = 5;
  private static final Bands OVERJET = Bands.upTo("3", "5", "7", "9");
  private static final Bands OPEN_BITE = Bands.upTo("0", "1", "2", "3");
  private static final Bands CENTRELINE = Bands.upTo("0.25", "0.5");
  private static final BigDecimal THREE = BigDecimal.valueOf(3);
  private static final Bands THIRDS_COVERED = Bands.upTo("1", "2");
  private static final int FULLY_COVERED = 3;

  private PeerAssessment() {}

  public static Reckoned<OutcomeScores.Par> components(OutcomeFindings findings) {
    return components(findings, null, BigDecimal.ZERO);
  }

  /**
   * Components if every reading in millimetres were larger by so much; what is judged by eye or
   * counted (shares of a crown, interdigitation, teeth in crossbite) is taken as it stands.
   *
   * @param given what an examiner scored beside the findings
   */
  static Reckoned<OutcomeScores.Par> components(
      OutcomeFindings findings, OutcomeScores.@Nullable Par given, BigDecimal more) {
    Integer givenUpper = given == null ? null : given.upperAnterior();
    Integer givenLower = given == null ? null : given.lowerAnterior();
    return anterior(findings.contacts().upper(), givenUpper, more, "upper")
        .flatMap(
            upper ->
                anterior(findings.contacts().lower(), givenLower, more, "lower")
                    .map(
                        lower ->
                            new OutcomeScores.Par(
                                upper,
                                lower,
                                buccal(findings.buccal().right()),
                                buccal(findings.buccal().left()),
                                overjet(findings, more),
                                overbite(findings, more),
                                CENTRELINE.of(findings.centreline().value()))));
  }

  /** The arches whose score can only be the examiner's, in words. */
  static List<String> unmeasured(OutcomeFindings findings) {
    List<String> arches = new ArrayList<>();
    if (anterior(findings.contacts().upper(), BigDecimal.ZERO, "upper").result().isEmpty()) {
      arches.add("upper anterior");
    }
    if (anterior(findings.contacts().lower(), BigDecimal.ZERO, "lower").result().isEmpty()) {
      arches.add("lower anterior");
    }
    return List.copyOf(arches);
  }

  private static Reckoned<Integer> anterior(
      List<Contact> contacts, @Nullable Integer given, BigDecimal more, String arch) {
    Reckoned<Integer> measured = anterior(contacts, more, arch);
    return given == null || measured.result().isPresent() ? measured : Reckoned.known(given);
  }

  private static Reckoned<Integer> anterior(List<Contact> contacts, BigDecimal more, String arch) {
    if (contacts.size() != 5) {
      return Reckoned.lacking(
          "five " + arch + " contacts are needed, " + contacts.size() + " given");
    }
    int sum = 0;
    for (int i = 0; i < contacts.size(); i++) {
      Contact contact = contacts.get(i);
      if (contact instanceof Contact.Displaced displaced) {
        sum += CONTACT.of(displaced.by().absolute().value().add(more));
      } else if (contact instanceof Contact.Impacted) {
        sum += IMPACTED;
      } else {
        return Reckoned.lacking(
            arch + " contact " + (i + 1) + " from the patient's right is not measured");
      }
    }
    return Reckoned.known(sum);
  }

  private static int buccal(Buccal segment) {
    int sagittal =
        switch (segment.anteroposterior()) {
          case FULL -> 0;
          case UNDER_HALF -> 1;
          case HALF -> 2;
        };
    int vertical = segment.open() ? 1 : 0;
    int transverse =
        switch (segment.transverse()) {
          case NONE -> 0;
          case TENDENCY -> 1;
          case ONE -> 2;
          case SEVERAL -> 3;
          case SCISSOR_SEVERAL -> 4;
        };
    return sagittal + vertical + transverse;
  }

  private static int overjet(OutcomeFindings findings, BigDecimal more) {
    return OVERJET.of(findings.overjet().value().add(more)) + anteriorCrossbite(findings);
  }

  private static int anteriorCrossbite(OutcomeFindings findings) {
    int crossed = findings.teethInAnteriorCrossbite();
    if (crossed > 0) {
      return 1 + Math.min(crossed, 3);
    }
    return findings.teethEdgeToEdge() > 0 ? 1 : 0;
  }

  /** The greater of cover and open bite; a third is compared as a third, not as 0.33. */
  private static int overbite(OutcomeFindings findings, BigDecimal more) {
    BigDecimal cover = findings.overbiteCover().value();
    int covered =
        cover.compareTo(BigDecimal.ONE) >= 0
            ? FULLY_COVERED
            : THIRDS_COVERED.of(cover.multiply(THREE));
    int open = OPEN_BITE.of(findings.overbite().negated().value().add(more));
    return Math.max(covered, open);
  }
}
