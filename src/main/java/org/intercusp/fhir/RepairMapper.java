package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.treatment.Breakage;
import org.intercusp.treatment.Review;
import org.jspecify.annotations.Nullable;

/** A breakage as the Procedure that dealt with it: the part that broke is its reason. */
final class RepairMapper {

  private static final Kind<Breakage.Part> PART = Kind.coded(LocalSystem.BREAKAGE_PART);
  private static final Kind<Breakage.Action> ACTION = Kind.coded(LocalSystem.BREAKAGE_ACTION);

  void toFhir(Review review, Writing writing) {
    Canonicals canonicals = writing.canonicals();
    for (int i = 0; i < review.breakages().size(); i++) {
      Breakage breakage = review.breakages().get(i);
      Procedure procedure = Deeds.procedure(review, Codes.REPAIR, writing);
      CodeableConcept action = (CodeableConcept) ACTION.out().apply(breakage.action(), canonicals);
      procedure.getCode().addCoding(action.getCodingFirstRep());
      procedure.addReasonCode((CodeableConcept) PART.out().apply(breakage.part(), canonicals));
      procedure
          .addFocalDevice()
          .setManipulated(writing.to("Device", Role.APPLIANCE, breakage.applianceId()));
      writing.add(procedure, Role.REPAIR, review.id(), Integer.toString(i + 1));
    }
  }

  void fromFhir(Encounter visit, Draft review, Reading reading) {
    for (Procedure procedure : Deeds.at(visit, Codes.REPAIR, reading)) {
      String path = reading.path(procedure);
      Draft breakage = review.element("breakages", path);
      Reference device = procedure.getFocalDeviceFirstRep().getManipulated();
      breakage.put("applianceId", appliance(device, reading), path + ".focalDevice[0].manipulated");
      breakage.put(
          "action", reading.value(ACTION, procedure.getCode(), path + ".code"), path + ".code");
      CodeableConcept part = procedure.hasReasonCode() ? procedure.getReasonCodeFirstRep() : null;
      String at = path + ".reasonCode[0]";
      breakage.put("part", reading.value(PART, part, at), at);
    }
  }

  private static @Nullable String appliance(Reference device, Reading reading) {
    Resource resource = reading.resolve(device);
    return resource == null ? null : ApplianceMapper.idOf(resource, reading);
  }
}
