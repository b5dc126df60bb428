package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.AMOUNT;
import static org.intercusp.treatment.Measures.ANGLE;
import static org.intercusp.treatment.Measures.ARCH;
import static org.intercusp.treatment.Measures.CROWN;
import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.FLAG;
import static org.intercusp.treatment.Measures.MOUTH;
import static org.intercusp.treatment.Measures.SCREW_TURN;
import static org.intercusp.treatment.Measures.SIDE;
import static org.intercusp.treatment.Measures.TEETH;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.TOOTH;
import static org.intercusp.treatment.Measures.WEAR;
import static org.intercusp.treatment.Measures.WIRE;
import static org.intercusp.treatment.Measures.code;

import org.intercusp.treatment.Appliance.Block;
import org.intercusp.treatment.Appliance.BlockHeights;
import org.intercusp.treatment.Appliance.Clasp;
import org.intercusp.treatment.Appliance.LabOrder;
import org.intercusp.treatment.Appliance.LabialBow;
import org.intercusp.treatment.Appliance.Screw;
import org.intercusp.treatment.Stage.Goal;
import org.intercusp.treatment.Stage.Trimming;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/** Construction bites, appliances and stages as the treatment file writes them. */
final class PlanFormat {

  static final Shape<Bite> BITE =
      Fields.of(Bite.class)
          .required("id", Words.idIn("bites"))
          .required("recordedOn", DATE)
          .required("overjetHabitual", MOUTH)
          .required("overbiteHabitual", MOUTH)
          .required("overjetInBite", MOUTH)
          .optional("retrudedReading", MOUTH)
          .required("habitualReading", MOUTH)
          .required("registeredReading", MOUTH)
          .required("maximumReading", MOUTH)
          .required("incisalClearance", MOUTH)
          .optional("premolarClearance", MOUTH)
          .optional("molarClearance", MOUTH)
          .optional("restSpace", AMOUNT)
          .required("upperIncisorHeight", CROWN)
          .required("lowerIncisorHeight", CROWN)
          .optional("lowerMidlineHabitual", MOUTH)
          .optional("lowerMidlineInBite", MOUTH)
          .optional("crossbiteInBite", FLAG)
          .optional("comfortable", FLAG)
          .defined()
          .build();

  private static final Shape<BlockHeights> BLOCK_HEIGHTS =
      Fields.of(BlockHeights.class).required("premolar", AMOUNT).required("molar", AMOUNT).build();

  private static final Shape<Block> BLOCK =
      Fields.of(Block.class)
          .required("arch", ARCH)
          .required("side", SIDE)
          .required("mesialTooth", TOOTH)
          .required("distalTooth", TOOTH)
          .defined()
          .build();

  private static final Shape<Clasp> CLASP =
      Fields.of(Clasp.class)
          .required("tooth", TOOTH)
          .required("kind", code(Clasp.Kind.values()))
          .required("wire", WIRE)
          .defined()
          .build();

  private static final Shape<LabialBow> LABIAL_BOW =
      Fields.of(LabialBow.class).required("arch", ARCH).required("wire", WIRE).build();

  private static final Shape<Screw> SCREW =
      Fields.of(Screw.class)
          .required("arch", ARCH)
          .required("turn", SCREW_TURN)
          .required("plannedTurns", Numbers.whole(0, 200))
          .required("daysPerTurn", Numbers.whole(1, 60))
          .build();

  private static final Shape<LabOrder> LAB =
      Fields.of(LabOrder.class)
          .required("requiredOn", DATE)
          .required("records", code(LabOrder.Records.values()))
          .required("disinfected", FLAG)
          .optional("colour", TEXT)
          .optional("remakeOf", Words.referenceTo("appliances"))
          .required("retentionYears", Numbers.whole(0, 100))
          .defined()
          .build();

  static final Shape<Appliance> APPLIANCE =
      Fields.of(Appliance.class)
          .required("id", Words.idIn("appliances"))
          .required("type", code(ApplianceType.values()))
          .optional("biteId", Words.referenceTo("bites"))
          .required("orderedOn", DATE)
          .optional("fittedOn", DATE)
          .optional("teethPresent", TEETH)
          .optional("inclineAngle", ANGLE)
          .optional("blockHeights", BLOCK_HEIGHTS)
          .optionalList("blocks", Items.upTo(20, BLOCK))
          .required("clasps", Items.upTo(64, CLASP))
          .optional("labialBow", LABIAL_BOW)
          .required("incisalCapping", FLAG)
          .optional("screw", SCREW)
          .required("material", TEXT)
          .optional("alloy", TEXT)
          .optional("batch", TEXT)
          .optional("lab", LAB)
          .optional("statement", TEXT)
          .requiredWhere("type", ApplianceType.TWIN_BLOCK.code(), "biteId")
          .defined()
          .build();

  private static final Shape<Trimming> TRIMMING =
      Fields.of(Trimming.class)
          .required("perVisit", AMOUNT)
          .required("fromReview", Numbers.whole(1, 100))
          .build();

  private static final Shape<Goal> GOAL =
      Fields.of(Goal.class)
          .required("measure", code(Goal.Measure.values()))
          .required("comparator", code(Goal.Comparator.values()))
          .required("target", MOUTH)
          .defined()
          .build();

  static final Shape<Stage> STAGE =
      Fields.of(Stage.class)
          .required("id", Words.idIn("stages"))
          .required("kind", code(StageKind.values()))
          .optional("applianceId", Words.referenceTo("appliances"))
          .optional("startsOn", DATE)
          .required("months", Numbers.whole(0, 60))
          .required("reviewWeeks", Numbers.whole(1, 52))
          .optional("wearHours", WEAR)
          .optional("trimming", TRIMMING)
          .required("goals", Items.upTo(20, GOAL))
          .defined()
          .build();

  private PlanFormat() {}
}
