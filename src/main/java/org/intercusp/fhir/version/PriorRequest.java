package org.intercusp.fhir.version;

import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.r4.model.DeviceRequest;
import org.hl7.fhir.r4.model.Reference;

/** Repair: {@code DeviceRequest.priorRequest}, {@code replaces} in R5, which is not converted. */
final class PriorRequest implements Repair<DeviceRequest, org.hl7.fhir.r5.model.DeviceRequest> {

  @Override
  public Class<DeviceRequest> four() {
    return DeviceRequest.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.DeviceRequest> five() {
    return org.hl7.fhir.r5.model.DeviceRequest.class;
  }

  @Override
  public void up(DeviceRequest from, org.hl7.fhir.r5.model.DeviceRequest made) {
    if (!made.hasReplaces()) {
      for (Reference prior : from.getPriorRequest()) {
        made.addReplaces(
            (org.hl7.fhir.r5.model.Reference) VersionConvertorFactory_40_50.convertType(prior));
      }
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.DeviceRequest from, DeviceRequest made) {
    if (!made.hasPriorRequest()) {
      from.getReplaces()
          .forEach(
              replaced ->
                  made.addPriorRequest(
                      (Reference) VersionConvertorFactory_40_50.convertType(replaced)));
    }
  }
}
