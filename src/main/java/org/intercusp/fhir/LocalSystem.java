package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.BodyShape;
import org.intercusp.treatment.Breakage;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Gonion;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.IncisorClass;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.JointSign;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.ModelSource;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFormat;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Tenderness;
import org.intercusp.treatment.Trim;

/**
 * A code system of ours, used where no verified code is known. Its definitions stand in {@code
 * profiles/CodeSystem-<kebab>.json}. Codes that the treatment file writes are taken from its closed
 * lists; the others are {@link Codes}.
 */
public enum LocalSystem {
  ACCEPTANCE("acceptance", List.of()),
  ALLERGEN("allergen", List.of()),
  ANSWERED_BY("answered-by", coded(Outcome.ReportedOutcome.AnsweredBy.values())),
  ANTERO_POSTERIOR("antero-posterior", coded(OutcomeFindings.Buccal.AnteroPosterior.values())),
  APPLIANCE_PART("appliance-part", List.of()),
  APPLIANCE_TYPE("appliance-type", coded(ApplianceType.values())),
  ARCH("arch", Arrays.stream(Arch.values()).map(Arch::code).toList()),
  BODY_SHAPE("body-shape", coded(BodyShape.values())),
  BREAKAGE_ACTION("breakage-action", coded(Breakage.Action.values())),
  BREAKAGE_PART("breakage-part", coded(Breakage.Part.values())),
  CLASP_KIND("clasp-kind", coded(org.intercusp.treatment.Appliance.Clasp.Kind.values())),
  COMPLETION_REASON("completion-reason", coded(Completion.Reason.values())),
  CONSENT_SCOPE("consent-scope", coded(ConsentScope.values())),
  CONTACT("contact", List.of()),
  DENTAL_HEALTH_COMPONENT("dental-health-component", OutcomeFormat.GRADES),
  GONION("gonion", coded(Gonion.values())),
  GROWTH_STAGE("growth-stage", coded(GrowthStage.values())),
  HARM_EVENT("harm-event", coded(HarmEvent.Code.values())),
  HARM_GRADE("harm-grade", coded(HarmEvent.Grade.values())),
  HYGIENE("hygiene", coded(Hygiene.values())),
  INCISOR_CLASS("incisor-class", coded(IncisorClass.values())),
  JAW_POSITION("jaw-position", coded(JawPosition.values())),
  JOINT_SIGN("joint-sign", withNone(coded(JointSign.values()))),
  LAB_RECORDS("lab-records", coded(org.intercusp.treatment.Appliance.LabOrder.Records.values())),
  LANDMARK("landmark", axes(coded(Landmark.values()))),
  LIPS("lips", coded(Lips.values())),
  MEASUREMENT("measurement", List.of()),
  METHOD("method", List.of()),
  MODEL_SOURCE("model-source", coded(ModelSource.values())),
  OUTCOME_MEDIUM("outcome-medium", coded(Outcome.Medium.values())),
  OUTCOME_PHASE("outcome-phase", coded(Outcome.Phase.values())),
  OVERBITE_CONTACT("overbite-contact", coded(OutcomeFindings.OverbiteContact.values())),
  PLAN_KIND("plan-kind", List.of()),
  PROCEDURE("procedure", List.of()),
  REGISTRY_ITEM("registry-item", registryItems()),
  REVIEW_KIND("review-kind", coded(ReviewKind.values())),
  RULE("rule", List.of()),
  SIDE("side", Arrays.stream(Side.values()).map(Side::code).toList()),
  STAGE_KIND("stage-kind", coded(StageKind.values())),
  TEAM_ROLE("team-role", List.of()),
  TENDERNESS("tenderness", coded(Tenderness.values())),
  TOOTH_WIDTH("tooth-width", ToothCodes.published().all()),
  TRANSVERSE("transverse", coded(OutcomeFindings.Buccal.Transverse.values())),
  TREATMENT_STATUS("treatment-status", coded(Completion.Status.values())),
  TRIM_FACE("trim-face", coded(Trim.Face.values()));

  private final String kebab;

  /** Joined by line ends, since a list would not be immutable by its type. */
  private final String codes;

  LocalSystem(String kebab, List<String> codes) {
    this.kebab = kebab;
    this.codes = String.join("\n", codes);
  }

  /** Last part of the canonical. */
  public String kebab() {
    return kebab;
  }

  /** The codes the treatment file's closed list gives it; empty where {@link Codes} name them. */
  public List<String> fileCodes() {
    return codes.lines().toList();
  }

  /** What a person reads for one of its file codes. */
  public String display(String code) {
    if (this == TOOTH_WIDTH) {
      return "Mesiodistal width of tooth " + code;
    }
    if (this == DENTAL_HEALTH_COMPONENT) {
      return "Grade " + code;
    }
    String words = code.replace('-', ' ');
    boolean name = this == LANDMARK || words.length() < 2;
    return name ? words : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** A file code as concept. */
  Concept concept(String code) {
    return Concept.local(this, code, display(code));
  }

  private static List<String> coded(Coded[] values) {
    return Arrays.stream(values).map(Coded::code).toList();
  }

  private static List<String> withNone(List<String> codes) {
    List<String> all = new ArrayList<>(codes);
    all.add("none-found");
    return List.copyOf(all);
  }

  private static List<String> axes(List<String> landmarks) {
    return landmarks.stream().flatMap(mark -> List.of(mark + "-x", mark + "-y").stream()).toList();
  }

  /** What an outcome record holds, member by member. */
  private static List<String> registryItems() {
    List<String> all =
        new ArrayList<>(List.of("course", "assessment", "appliance", "first-fitted"));
    all.addAll(List.of("growth-stage", "status", "reason", "decided", "last-attended"));
    all.addAll(List.of("days-active", "days-support", "days-fixed", "days-retention", "reviews"));
    all.addAll(List.of("wear-reported", "wear-measured", "breakages"));
    coded(HarmEvent.Code.values())
        .forEach(code -> all.addAll(List.of("harm-" + code, "serious-" + code)));
    all.addAll(List.of("overjet", "overbite", "dhc", "aesthetic"));
    for (String trait :
        List.of(
            "upper-anterior",
            "lower-anterior",
            "buccal-right",
            "buccal-left",
            "overjet",
            "overbite",
            "centreline")) {
      all.addAll(List.of("par-" + trait, "par-again-" + trait));
    }
    for (String trait :
        List.of(
            "aesthetic",
            "crowding-spacing",
            "crossbite",
            "vertical",
            "buccal-right",
            "buccal-left")) {
      all.add("icon-" + trait);
    }
    return List.copyOf(all);
  }
}
