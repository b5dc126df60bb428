package org.intercusp.web.pages.entry;

import static org.intercusp.web.pages.entry.Field.choice;
import static org.intercusp.web.pages.entry.Field.length;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Breakage;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.JointSign;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Tenderness;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.Trim;
import org.intercusp.web.pages.entry.Field.Kind;
import org.intercusp.web.pages.entry.Sheet.Group;
import org.intercusp.web.pages.entry.Sheet.Section;

/** The form of a review visit: every member of {@code review}. */
final class ReviewSheet {

  private final Treatment treatment;

  private ReviewSheet(Treatment treatment) {
    this.treatment = treatment;
  }

  static Sheet of(Treatment treatment, LocalDate today) {
    ReviewSheet sheet = new ReviewSheet(treatment);
    return new Sheet(
        "Record a review",
        "reviews",
        "review",
        "date",
        List.of(sheet.visit(), measured(), wear(), health(), sheet.advance(), next()),
        List.of(harm(), sheet.breakages(), trimmed()),
        sheet.standIns(today));
  }

  private Section visit() {
    List<Option> stages =
        treatment.stages().stream()
            .map(stage -> new Option(stage.id(), stage.id() + " (" + stage.kind().code() + ")"))
            .toList();
    return new Section(
        "The visit",
        "",
        List.of(
            Field.of(Kind.TEXT, "id", "Id", "Proposed; no other review may have it.").asNeeded(),
            Field.of(Kind.DATE, "date", "Date", "").asNeeded(),
            choice("stageId", "Stage", "", stages).asNeeded(),
            Field.of(Kind.TEXT, "seenBy", "Seen by", "").asNeeded(),
            choice("kind", "Kind", "", Option.of(ReviewKind.values())).asNeeded()));
  }

  private static Section measured() {
    return new Section(
        "Measured",
        "",
        List.of(
            length("overjet", "Overjet", "Reverse overjet negative.").asNeeded(),
            length("overjetRetruded", "Overjet with the jaw held back", ""),
            length("overbite", "Overbite", "Open bite negative.").asNeeded(),
            length("molarRelation/right", "Molar relation, right", "Class II positive.").asNeeded(),
            length("molarRelation/left", "Molar relation, left", "Class II positive.").asNeeded(),
            length("posteriorOpenBite/right", "Posterior open bite, right", "Both sides or none."),
            length("posteriorOpenBite/left", "Posterior open bite, left", "Both sides or none.")));
  }

  private static Section wear() {
    String whole = "Hours, from and to: all three or none.";
    return new Section(
        "Wear",
        "",
        List.of(
            Field.of(Kind.HOURS, "wearReported", "Wear as told", ""),
            Field.of(Kind.HOURS, "wearMeasured/hoursPerDay", "Wear as measured", whole),
            Field.of(Kind.DATE, "wearMeasured/from", "Measured from", ""),
            Field.of(Kind.DATE, "wearMeasured/to", "Measured to", ""),
            choice(
                "retractionTenderness",
                "Tenderness on retracting the jaw",
                "A sign of wear; no joint pain.",
                Option.of(Tenderness.values()))));
  }

  private static Section health() {
    return new Section(
        "Joints and mouth",
        "",
        List.of(
            new Field(
                "jointSigns",
                "Joint signs",
                Kind.BOXES,
                "Pain is pain in front of the ear. Tick none when you asked and found none; leave"
                    + " all empty when nobody asked.",
                false,
                Option.of(JointSign.values())),
            length("maximumOpening", "Maximum opening", "Between the edges, plus the overbite."),
            choice("hygiene", "Hygiene", "", Option.of(Hygiene.values()))));
  }

  private Section advance() {
    List<Option> bites =
        treatment.bites().stream().map(Bite::id).map(id -> new Option(id, id)).toList();
    return new Section(
        "Done to the appliance",
        "",
        List.of(
            length("reactivation/amount", "Taken further forward by", "Re-activation."),
            choice("reactivation/biteId", "To the new bite", "If one was registered.", bites),
            Field.of(Kind.WHOLE, "screwTurns", "Turns of the screw since the last review", "")));
  }

  private static Section next() {
    return new Section(
        "Next",
        "",
        List.of(
            Field.of(Kind.DATE, "nextReviewOn", "Next review on", ""),
            Field.of(Kind.LINES, "note", "Note", "Never goes to a registry.")));
  }

  private static Group harm() {
    return new Group(
        "adverseEvents",
        "harmEvent",
        "Adverse events",
        "adverse event",
        List.of(
            choice("code", "What", "", Option.of(HarmEvent.Code.values())).asNeeded(),
            choice("severity", "How bad", "", Option.of(HarmEvent.Grade.values())).asNeeded(),
            Field.of(Kind.FLAG, "serious", "Serious", "").asNeeded(),
            Field.of(Kind.FLAG, "suspectedAppliance", "Appliance suspected", "").asNeeded(),
            Field.of(Kind.DATE, "onsetOn", "Began on", "").asNeeded(),
            Field.of(Kind.TEXT, "action", "What was done", "")));
  }

  private Group breakages() {
    List<Option> appliances =
        treatment.appliances().stream().map(Appliance::id).map(id -> new Option(id, id)).toList();
    return new Group(
        "breakages",
        "breakage",
        "Breakages",
        "breakage",
        List.of(
            choice("applianceId", "Appliance", "", appliances).asNeeded(),
            choice("part", "Part", "", Option.of(Breakage.Part.values())).asNeeded(),
            choice("action", "What was done", "", Option.of(Breakage.Action.values())).asNeeded()));
  }

  private static Group trimmed() {
    return new Group(
        "trimmed",
        "trim",
        "Trimmed off the blocks",
        "trimming",
        List.of(
            choice("arch", "Arch", "", plain("upper", "lower")).asNeeded(),
            choice("side", "Side", "", plain("right", "left")).asNeeded(),
            Field.of(Kind.TEXT, "tooth", "Tooth", "Two digits, ISO 3950."),
            choice("face", "Face", "", Option.of(Trim.Face.values())).asNeeded(),
            length("amount", "Amount", "").asNeeded()));
  }

  private static List<Option> plain(String... codes) {
    return List.of(codes).stream().map(Option::plain).toList();
  }

  private Map<String, Object> standIns(LocalDate today) {
    String stage = treatment.stages().stream().map(Stage::id).findFirst().orElse("");
    return Map.ofEntries(
        Map.entry("id", "being-typed"),
        Map.entry("date", today.toString()),
        Map.entry("stageId", stage),
        Map.entry("seenBy", "somebody"),
        Map.entry("kind", ReviewKind.URGENT.code()),
        Map.entry("overjet", 4),
        Map.entry("overbite", 3),
        Map.entry("molarRelation/right", 0),
        Map.entry("molarRelation/left", 0),
        Map.entry("adverseEvents/*/code", HarmEvent.Code.OTHER.code()),
        Map.entry("adverseEvents/*/severity", HarmEvent.Grade.MILD.code()),
        Map.entry("adverseEvents/*/serious", false),
        Map.entry("adverseEvents/*/suspectedAppliance", false),
        Map.entry("adverseEvents/*/onsetOn", today.toString()));
  }
}
