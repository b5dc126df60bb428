package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.AMOUNT;
import static org.intercusp.treatment.Measures.ARCH;
import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.FLAG;
import static org.intercusp.treatment.Measures.MOUTH;
import static org.intercusp.treatment.Measures.OPENING;
import static org.intercusp.treatment.Measures.SIDE;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.TOOTH;
import static org.intercusp.treatment.Measures.WEAR;
import static org.intercusp.treatment.Measures.code;
import static org.intercusp.treatment.Measures.sides;

import org.intercusp.treatment.Review.Reactivation;
import org.intercusp.treatment.Review.WearMeasured;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/** Review visits as the treatment file writes them. */
final class ReviewFormat {

  private static final Shape<WearMeasured> WEAR_MEASURED =
      Fields.of(WearMeasured.class)
          .required("hoursPerDay", WEAR)
          .required("from", DATE)
          .required("to", DATE)
          .build();

  private static final Shape<Breakage> BREAKAGE =
      Fields.of(Breakage.class)
          .required("applianceId", Words.referenceTo("appliances"))
          .required("part", code(Breakage.Part.values()))
          .required("action", code(Breakage.Action.values()))
          .defined()
          .build();

  private static final Shape<Trim> TRIM =
      Fields.of(Trim.class)
          .required("arch", ARCH)
          .required("side", SIDE)
          .optional("tooth", TOOTH)
          .required("face", code(Trim.Face.values()))
          .required("amount", AMOUNT)
          .defined()
          .build();

  private static final Shape<Reactivation> REACTIVATION =
      Fields.of(Reactivation.class)
          .required("amount", AMOUNT)
          .optional("biteId", Words.referenceTo("bites"))
          .build();

  private static final Shape<HarmEvent> HARM_EVENT =
      Fields.of(HarmEvent.class)
          .required("code", code(HarmEvent.Code.values()))
          .required("severity", code(HarmEvent.Grade.values()))
          .required("serious", FLAG)
          .required("suspectedAppliance", FLAG)
          .required("onsetOn", DATE)
          .optional("action", TEXT)
          .defined()
          .build();

  static final Shape<Review> REVIEW =
      Fields.of(Review.class)
          .required("id", Words.idIn("reviews"))
          .required("date", DATE)
          .required("stageId", Words.referenceTo("stages"))
          .required("seenBy", TEXT)
          .required("kind", code(ReviewKind.values()))
          .required("overjet", MOUTH)
          .optional("overjetRetruded", MOUTH)
          .required("overbite", MOUTH)
          .required("molarRelation", sides(MOUTH))
          .optional("posteriorOpenBite", sides(AMOUNT))
          .optional("wearReported", WEAR)
          .optional("wearMeasured", WEAR_MEASURED)
          .optional("retractionTenderness", code(Tenderness.values()))
          .optional("jointSigns", PeopleFormat.JOINT_SIGNS)
          .optional("maximumOpening", OPENING)
          .optionalList("breakages", Items.upTo(50, BREAKAGE))
          .optionalList("trimmed", Items.upTo(50, TRIM))
          .optional("reactivation", REACTIVATION)
          .optional("screwTurns", Numbers.whole(0, 200))
          .optional("hygiene", code(Hygiene.values()))
          .optionalList("adverseEvents", Items.upTo(50, HARM_EVENT))
          .optional("nextReviewOn", DATE)
          .optional("note", Words.lines(4000))
          .defined()
          .build();

  private ReviewFormat() {}
}
