package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DeviceRequest;
import org.hl7.fhir.r4.model.DeviceRequest.DeviceRequestParameterComponent;
import org.hl7.fhir.r4.model.DeviceRequest.DeviceRequestStatus;
import org.hl7.fhir.r4.model.DeviceRequest.RequestIntent;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.Angle;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.BlockHeights;
import org.intercusp.treatment.Appliance.LabOrder;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The order for an appliance as DeviceRequest: what a parameter can hold (one value each) stands
 * here, the parts made of several are properties of the Device.
 */
final class PrescriptionMapper {

  private static final Concept INCLINE = part("incline-angle");
  private static final Concept PREMOLAR_HEIGHT = part("block-height-premolar");
  private static final Concept MOLAR_HEIGHT = part("block-height-molar");
  private static final Concept CAPPING = part("incisal-capping");

  private static final Kind<ApplianceType> TYPE = Kind.coded(LocalSystem.APPLIANCE_TYPE);
  private static final Kind<Angle> DEGREES = Kind.quantity(Unit.DEGREE);
  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);

  static Concept part(String code) {
    return Codes.ours(LocalSystem.APPLIANCE_PART, code);
  }

  private static DeviceRequestStatus status(Appliance appliance, Treatment treatment) {
    if (appliance.fittedOn() != null) {
      return DeviceRequestStatus.COMPLETED;
    }
    return treatment.hasEnded() ? DeviceRequestStatus.REVOKED : DeviceRequestStatus.ACTIVE;
  }

  void toFhir(Appliance appliance, Writing writing) {
    DeviceRequest resource = new DeviceRequest();
    resource.setStatus(status(appliance, writing.treatment()));
    resource.setIntent(RequestIntent.ORDER);
    resource.setCode(TYPE.out().apply(appliance.type(), writing.canonicals()));
    resource.setSubject(writing.patient());
    resource.setAuthoredOnElement(Writing.day(appliance.orderedOn()));
    resource.setRequester(writing.clinician());
    resource.addBasedOn(writing.plan());
    resource.addReasonReference(writing.diagnosis());
    if (appliance.biteId() != null) {
      resource.addSupportingInfo(writing.to("Observation", Role.BITE, appliance.biteId()));
    }
    resource.addSupportingInfo(writing.to("Device", Role.APPLIANCE, appliance.id()));
    LabOrder lab = appliance.lab();
    if (lab != null && lab.remakeOf() != null) {
      resource.addPriorRequest(writing.to("DeviceRequest", Role.PRESCRIPTION, lab.remakeOf()));
    }
    Canonicals canonicals = writing.canonicals();
    parameter(resource, INCLINE, DEGREES, appliance.inclineAngle(), canonicals);
    BlockHeights heights = appliance.blockHeights();
    if (heights != null) {
      parameter(resource, PREMOLAR_HEIGHT, MM, heights.premolar(), canonicals);
      parameter(resource, MOLAR_HEIGHT, MM, heights.molar(), canonicals);
    }
    parameter(resource, CAPPING, Kind.bool(), appliance.incisalCapping(), canonicals);
    writing.add(resource, Role.PRESCRIPTION, appliance.id());
  }

  private static <V> void parameter(
      DeviceRequest to, Concept code, Kind<V> kind, @Nullable V value, Canonicals canonicals) {
    if (value != null) {
      to.addParameter()
          .setCode(code.concept(canonicals))
          .setValue(kind.out().apply(value, canonicals));
    }
  }

  void fromFhir(DeviceRequest resource, Draft draft, Reading reading) {
    String path = reading.path(resource);
    draft.put("id", reading.id(resource), path + ".identifier");
    Type type = resource.hasCode() ? resource.getCode() : null;
    draft.put("type", reading.value(TYPE, type, path + ".code"), path + ".code");
    for (Reference reference : resource.getSupportingInfo()) {
      Observation bite = reading.resolve(reference, Observation.class);
      if (bite != null && reading.is(BiteMapper.CODE, bite.getCode())) {
        draft.put("biteId", reading.id(bite), path + ".supportingInfo");
      }
    }
    draft.put(
        "orderedOn",
        Kind.day(resource.getAuthoredOnElement().getValueAsString()),
        path + ".authoredOn");
    for (int i = 0; i < resource.getParameter().size(); i++) {
      parameter(
          resource.getParameter().get(i), draft, path + ".parameter[" + i + "].value", reading);
    }
  }

  private static void parameter(
      DeviceRequestParameterComponent parameter, Draft draft, String at, Reading reading) {
    CodeableConcept code = parameter.getCode();
    Type value = parameter.hasValue() ? parameter.getValue() : null;
    if (reading.is(INCLINE, code)) {
      draft.put("inclineAngle", reading.value(DEGREES, value, at), at);
    } else if (reading.is(PREMOLAR_HEIGHT, code)) {
      draft.object("blockHeights", at).put("premolar", reading.value(MM, value, at), at);
    } else if (reading.is(MOLAR_HEIGHT, code)) {
      draft.object("blockHeights", at).put("molar", reading.value(MM, value, at), at);
    } else if (reading.is(CAPPING, code)) {
      draft.put("incisalCapping", reading.value(Kind.bool(), value, at), at);
    }
  }
}
