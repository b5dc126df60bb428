package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;

/** The occlusal findings of a scoring, a component each. */
final class OutcomeFindingsMapper {

  static final Concept CODE = Codes.measurement("occlusal-findings");

  private static final Panel<OutcomeFindings> PANEL = panel();

  private static Panel<OutcomeFindings> panel() {
    Panel<OutcomeFindings> panel = new Panel<>(Role.OUTCOME_FINDINGS, CODE);
    lengths(panel);
    counts(panel);
    buccal(panel);
    signs(panel);
    return panel;
  }

  private static void lengths(Panel<OutcomeFindings> panel) {
    Kind<Length> mm = Kind.quantity(Unit.MILLIMETRE);
    Kind<Share> share = Kind.quantity(Unit.SHARE);
    panel
        .part("overjet", Codes.OVERJET, mm, OutcomeFindings::overjet)
        .part("overbite", Codes.OVERBITE, mm, OutcomeFindings::overbite)
        .part("overbiteCover", Codes.OVERBITE_COVER, share, OutcomeFindings::overbiteCover)
        .part("lateralOpenBite", code("lateral-open-bite"), mm, OutcomeFindings::lateralOpenBite)
        .part("centreline", code("centreline"), share, OutcomeFindings::centreline)
        .part("worstDisplacement", code("displacement"), mm, OutcomeFindings::worstDisplacement)
        .part("crossbiteShift", code("crossbite-shift"), mm, OutcomeFindings::crossbiteShift)
        .part("upperCrowding", code("upper-crowding"), mm, OutcomeFindings::upperCrowding)
        .part("upperSpacing", code("upper-spacing"), mm, OutcomeFindings::upperSpacing)
        .contacts("contacts", ContactCodes.UPPER, ContactCodes.LOWER, OutcomeFindings::contacts);
  }

  private static void counts(Panel<OutcomeFindings> panel) {
    Kind<Integer> n = Kind.integer();
    panel
        .part("teethEdgeToEdge", code("teeth-edge-to-edge"), n, OutcomeFindings::teethEdgeToEdge)
        .part(
            "teethInAnteriorCrossbite",
            code("teeth-in-anterior-crossbite"),
            n,
            OutcomeFindings::teethInAnteriorCrossbite)
        .part("aestheticComponent", code("aesthetic"), n, OutcomeFindings::aestheticComponent)
        .teeth("missingTeeth", code("missing-tooth"), OutcomeFindings::missingTeeth)
        .teeth("impededTeeth", code("impeded-tooth"), OutcomeFindings::impededTeeth)
        .teeth("tippedTeeth", code("tipped-tooth"), OutcomeFindings::tippedTeeth)
        .teeth("submergedTeeth", code("submerged-tooth"), OutcomeFindings::submergedTeeth);
  }

  private static void buccal(Panel<OutcomeFindings> panel) {
    side(panel, "right", f -> f.buccal().right());
    side(panel, "left", f -> f.buccal().left());
  }

  private static void side(
      Panel<OutcomeFindings> panel, String side, Panel.Getter<OutcomeFindings, Buccal> getter) {
    String member = "buccal/" + side;
    panel
        .part(
            member + "/anteroposterior",
            code("antero-posterior-" + side),
            Kind.coded(LocalSystem.ANTERO_POSTERIOR),
            Panel.after(getter, Buccal::anteroposterior))
        .part(
            member + "/open",
            code("buccal-open-" + side),
            Kind.bool(),
            Panel.after(getter, Buccal::open))
        .part(
            member + "/transverse",
            code("transverse-" + side),
            Kind.coded(LocalSystem.TRANSVERSE),
            Panel.after(getter, Buccal::transverse));
  }

  private static void signs(Panel<OutcomeFindings> panel) {
    Kind<Boolean> yes = Kind.bool();
    panel
        .part(
            "overbiteContact",
            code("overbite-contact"),
            Kind.coded(LocalSystem.OVERBITE_CONTACT),
            OutcomeFindings::overbiteContact)
        .part("crossbite", code("crossbite"), yes, OutcomeFindings::crossbite)
        .part(
            "lingualCrossbiteNoContact",
            code("lingual-crossbite-no-contact"),
            yes,
            OutcomeFindings::lingualCrossbiteNoContact)
        .part("lips", Codes.LIPS, Kind.coded(LocalSystem.LIPS), OutcomeFindings::lips)
        .part(
            "masticatoryDifficulty",
            code("masticatory-difficulty"),
            yes,
            OutcomeFindings::masticatoryDifficulty)
        .part("speechDifficulty", code("speech-difficulty"), yes, OutcomeFindings::speechDifficulty)
        .part("supernumerary", code("supernumerary"), yes, OutcomeFindings::supernumerary)
        .part("cleft", code("cleft"), yes, OutcomeFindings::cleft);
  }

  private static Concept code(String code) {
    return Codes.measurement("finding-" + code);
  }

  void toFhir(Outcome outcome, Observation scoring, Writing writing) {
    OutcomeFindings findings = outcome.findings();
    if (findings == null) {
      return;
    }
    Observation resource = OutcomeMapper.observation(CODE, outcome, writing);
    PANEL.write(findings, resource, writing.canonicals());
    writing.add(resource, Role.OUTCOME_FINDINGS, outcome.id());
    scoring.addHasMember(writing.to("Observation", Role.OUTCOME_FINDINGS, outcome.id()));
  }

  void fromFhir(Observation member, Draft outcome, Reading reading) {
    if (reading.is(CODE, member.getCode())) {
      PANEL.read(member, outcome.object("findings", reading.path(member)), reading);
    }
  }
}
