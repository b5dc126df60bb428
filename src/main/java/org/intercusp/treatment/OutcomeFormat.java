package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.AMOUNT;
import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.FLAG;
import static org.intercusp.treatment.Measures.MOUTH;
import static org.intercusp.treatment.Measures.TEETH;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.code;
import static org.intercusp.treatment.Measures.share;

import java.util.List;
import org.intercusp.finding.Source;
import org.intercusp.treatment.Outcome.ReportedOutcome;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.BuccalSides;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/** Outcome scorings as the treatment file writes them. */
public final class OutcomeFormat {

  private static final Source PAR_SOURCE =
      Source.published("Eur J Orthod 1992;14:125-139, 180-187");
  private static final Source PAR_TABLES = Source.memoryOf("Eur J Orthod 1992;14:125-139");
  private static final Source IOTN_SOURCE = Source.published("Eur J Orthod 1989;11:309-320");
  private static final Source DHC_SOURCE =
      Source.partlyMemory("Eur J Orthod 1989;11:309-320", "some letters from memory of it");
  private static final Source ICON_SOURCE = Source.memoryOf("J Orthod 2000;27:149-162");

  /** Grades of the dental health component; some letters from memory. */
  public static final List<String> GRADES =
      List.of(
          "1", "2a", "2b", "2c", "2d", "2e", "2f", "2g", "3a", "3b", "3c", "3d", "3e", "3f", "4a",
          "4b", "4c", "4d", "4e", "4f", "4h", "4l", "4m", "4t", "4x", "5a", "5h", "5i", "5m", "5p",
          "5s");

  private static final Shape<Buccal> BUCCAL =
      Fields.of(Buccal.class)
          .required("anteroposterior", code(Buccal.AnteroPosterior.values()))
          .required("open", FLAG)
          .required("transverse", code(Buccal.Transverse.values()))
          .defined()
          .build();

  private static final Shape<BuccalSides> BUCCAL_SIDES =
      Fields.of(BuccalSides.class).required("right", BUCCAL).required("left", BUCCAL).build();

  private static final Shape<Integer> INCISORS_AND_CANINES = Numbers.whole(0, 6);

  private static final Shape<OutcomeFindings> FINDINGS =
      Fields.of(OutcomeFindings.class)
          .required("overjet", MOUTH)
          .required("teethEdgeToEdge", INCISORS_AND_CANINES)
          .required("teethInAnteriorCrossbite", INCISORS_AND_CANINES)
          .required("overbite", MOUTH)
          .required("overbiteCover", share("2"))
          .required("overbiteContact", code(OutcomeFindings.OverbiteContact.values()))
          .required("lateralOpenBite", AMOUNT)
          .required("centreline", share("2"))
          .required("contacts", ImagingFormat.CONTACTS)
          .required("worstDisplacement", AMOUNT)
          .required("buccal", BUCCAL_SIDES)
          .required("crossbite", FLAG)
          .required("crossbiteShift", AMOUNT)
          .required("lingualCrossbiteNoContact", FLAG)
          .required("lips", code(Lips.values()))
          .required("masticatoryDifficulty", FLAG)
          .required("speechDifficulty", FLAG)
          .required("missingTeeth", TEETH)
          .required("impededTeeth", TEETH)
          .required("tippedTeeth", TEETH)
          .required("submergedTeeth", TEETH)
          .required("supernumerary", FLAG)
          .required("cleft", FLAG)
          .required("aestheticComponent", Numbers.score(1, 10, IOTN_SOURCE))
          .required("upperCrowding", AMOUNT)
          .required("upperSpacing", AMOUNT)
          .defined()
          .build();

  public static final Shape<Par> PAR =
      Fields.of(Par.class)
          .required("upperAnterior", Numbers.score(0, 25, PAR_SOURCE))
          .required("lowerAnterior", Numbers.score(0, 25, PAR_SOURCE))
          .required("buccalRight", Numbers.score(0, 7, PAR_TABLES))
          .required("buccalLeft", Numbers.score(0, 7, PAR_TABLES))
          .required("overjet", Numbers.score(0, 8, PAR_TABLES))
          .required("overbite", Numbers.score(0, 4, PAR_TABLES))
          .required("centreline", Numbers.score(0, 2, PAR_TABLES))
          .defined()
          .build();

  /** Grade of the dental health component. */
  public static final Shape<String> DHC = Words.grade(GRADES, DHC_SOURCE);

  /** The aesthetic component. */
  public static final Shape<Integer> AESTHETIC = Numbers.score(1, 10, IOTN_SOURCE);

  public static final Shape<Icon> ICON =
      Fields.of(Icon.class)
          .required("aesthetic", Numbers.score(1, 10, ICON_SOURCE))
          .required("crowdingSpacing", Numbers.score(0, 5, ICON_SOURCE))
          .required("crossbite", Numbers.score(0, 1, ICON_SOURCE))
          .required("vertical", Numbers.score(0, 4, ICON_SOURCE))
          .required("buccalRight", Numbers.score(0, 2, ICON_SOURCE))
          .required("buccalLeft", Numbers.score(0, 2, ICON_SOURCE))
          .defined()
          .build();

  private static final Shape<OutcomeScores> SCORES =
      Fields.of(OutcomeScores.class)
          .optional("par", PAR)
          .optional("dhc", DHC)
          .optional("icon", ICON)
          .atLeastOne("par", "dhc", "icon")
          .build();

  private static final Shape<ReportedOutcome> REPORTED =
      Fields.of(ReportedOutcome.class)
          .required("instrument", TEXT)
          .required("version", TEXT)
          .required("answeredBy", code(ReportedOutcome.AnsweredBy.values()))
          .required("total", Numbers.decimal("-10000", "10000"))
          .required("min", Numbers.decimal("-10000", "10000"))
          .required("max", Numbers.decimal("-10000", "10000"))
          .within("total", "min", "max")
          .defined()
          .build();

  static final Shape<Outcome> OUTCOME =
      Fields.of(Outcome.class)
          .required("id", Words.idIn("outcomes"))
          .required("date", DATE)
          .required("phase", code(Outcome.Phase.values()))
          .required("source", code(Outcome.Medium.values()))
          .required("examiner", PeopleFormat.IDENTIFIER)
          .optional("repeatOf", Words.referenceTo("outcomes"))
          .optional("findings", FINDINGS)
          .optional("scores", SCORES)
          .optionalList("reportedOutcomes", Items.upTo(20, REPORTED))
          .atLeastOne("findings", "scores")
          .defined()
          .build();

  private OutcomeFormat() {}
}
