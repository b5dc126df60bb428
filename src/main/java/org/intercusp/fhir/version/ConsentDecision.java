package org.intercusp.fhir.version;

import java.util.ArrayList;
import java.util.stream.Stream;
import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Consent.ConsentPolicyComponent;
import org.hl7.fhir.r4.model.Consent.ConsentProvisionType;
import org.hl7.fhir.r4.model.Consent.ConsentState;
import org.hl7.fhir.r4.model.Consent.ProvisionComponent;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r5.model.Enumerations;

/**
 * Repair: what a Consent decides. R4's root provision says permit or deny itself; in R5 a provision
 * is always an exception from {@code decision}. So what is permitted within bounds becomes an
 * exception from a refusal; what is refused becomes the refusal alone, its bounds carried as
 * extensions, since as an exception they would permit. The state rejected and the policy, which R5
 * keeps elsewhere or not at all, and the scope, which R4 demands, are put right too, and who grants
 * it stands before who complies.
 */
final class ConsentDecision implements Repair<Consent, org.hl7.fhir.r5.model.Consent> {

  private static final String STATUS = "Consent.status";
  private static final String SCOPE = "Consent.scope";
  private static final String CODE = "Consent.provision.code";
  private static final String PERIOD = "Consent.provision.period";

  private final Carried carried;

  ConsentDecision(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<Consent> four() {
    return Consent.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Consent> five() {
    return org.hl7.fhir.r5.model.Consent.class;
  }

  @Override
  public void up(Consent from, org.hl7.fhir.r5.model.Consent made) {
    if (from.hasScope()) {
      carried.up(SCOPE, from.getScope(), made);
    }
    if (from.getStatus() == ConsentState.REJECTED || from.getStatus() == ConsentState.PROPOSED) {
      carried.up(STATUS, new org.hl7.fhir.r4.model.CodeType(from.getStatus().toCode()), made);
      made.setStatus(
          from.getStatus() == ConsentState.REJECTED
              ? org.hl7.fhir.r5.model.Consent.ConsentState.NOTDONE
              : org.hl7.fhir.r5.model.Consent.ConsentState.DRAFT);
    }
    if (from.hasPolicy()) {
      made.getPolicyBasis().setUrl(from.getPolicyFirstRep().getUri());
    }
    // The library makes R4's one role that of who must comply, but ours is who consents.
    made.setGrantor(new ArrayList<>(made.getGrantee()));
    made.setGrantee(null);
    decide(from.getProvision(), made);
  }

  private void decide(ProvisionComponent provision, org.hl7.fhir.r5.model.Consent made) {
    boolean bounded = provision.hasCode() || provision.hasPeriod();
    if (provision.getType() == ConsentProvisionType.DENY) {
      made.setDecision(Enumerations.ConsentProvisionType.DENY);
      made.getProvision().clear();
      provision.getCode().forEach(code -> carried.up(CODE, code, made));
      if (provision.hasPeriod()) {
        carried.up(PERIOD, provision.getPeriod(), made);
      }
    } else if (provision.getType() == ConsentProvisionType.PERMIT) {
      made.setDecision(
          bounded
              ? Enumerations.ConsentProvisionType.DENY
              : Enumerations.ConsentProvisionType.PERMIT);
      if (!bounded) {
        made.getProvision().clear();
      }
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Consent from, Consent made) {
    carried
        .down(SCOPE, made.getExtension())
        .forEach(scope -> made.setScope((CodeableConcept) scope));
    if (!made.hasScope()) {
      made.getScope()
          .addCoding(
              new Coding(
                  "http://terminology.hl7.org/CodeSystem/consentscope",
                  "patient-privacy",
                  "Privacy Consent"));
    }
    carried
        .down(STATUS, made.getExtension())
        .forEach(status -> made.setStatus(ConsentState.fromCode(status.primitiveValue())));
    policy(from, made);
    performers(from, made);
    if (from.hasDecision()) {
      boolean permits =
          (from.getDecision() == Enumerations.ConsentProvisionType.PERMIT) != from.hasProvision();
      made.getProvision()
          .setType(permits ? ConsentProvisionType.PERMIT : ConsentProvisionType.DENY);
    }
    carried
        .down(CODE, made.getExtension())
        .forEach(code -> made.getProvision().addCode((CodeableConcept) code));
    carried
        .down(PERIOD, made.getExtension())
        .forEach(period -> made.getProvision().setPeriod((org.hl7.fhir.r4.model.Period) period));
  }

  private static void performers(org.hl7.fhir.r5.model.Consent from, Consent made) {
    made.setPerformer(new ArrayList<>());
    Stream.concat(from.getGrantor().stream(), from.getGrantee().stream())
        .forEach(
            one -> made.addPerformer((Reference) VersionConvertorFactory_40_50.convertType(one)));
  }

  private static void policy(org.hl7.fhir.r5.model.Consent from, Consent made) {
    if (from.getPolicyBasis().hasUrl() && !made.hasPolicy()) {
      made.addPolicy(new ConsentPolicyComponent().setUri(from.getPolicyBasis().getUrl()));
    }
    if (!made.hasPolicy() && !made.hasPolicyRule() && from.hasRegulatoryBasis()) {
      made.setPolicyRule(
          (CodeableConcept)
              VersionConvertorFactory_40_50.convertType(from.getRegulatoryBasisFirstRep()));
    }
  }
}
