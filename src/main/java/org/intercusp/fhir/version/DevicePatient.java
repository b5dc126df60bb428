package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.Reference;

/**
 * Repair: {@code Device.patient}, which R5 moved to a resource of its own (DeviceAssociation). A
 * custom-made appliance is its patient's before anybody wears it, so the patient travels with it.
 */
final class DevicePatient implements Repair<Device, org.hl7.fhir.r5.model.Device> {

  private static final String PATH = "Device.patient";

  private final Carried carried;

  DevicePatient(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<Device> four() {
    return Device.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Device> five() {
    return org.hl7.fhir.r5.model.Device.class;
  }

  @Override
  public void up(Device from, org.hl7.fhir.r5.model.Device made) {
    if (from.hasPatient()) {
      carried.up(PATH, from.getPatient(), made);
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Device from, Device made) {
    carried
        .down(PATH, made.getExtension())
        .forEach(patient -> made.setPatient((Reference) patient));
  }
}
