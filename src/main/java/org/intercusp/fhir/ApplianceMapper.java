package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Device;
import org.hl7.fhir.r4.model.DeviceRequest;
import org.hl7.fhir.r4.model.DocumentReference;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.Task;
import org.intercusp.treatment.Appliance;
import org.jspecify.annotations.Nullable;

/** An appliance from its order to its use: the resources that together say it. */
final class ApplianceMapper {

  private final PrescriptionMapper prescriptions = new PrescriptionMapper();
  private final DeviceMapper devices = new DeviceMapper();
  private final LaboratoryMapper laboratories = new LaboratoryMapper();
  private final StatementMapper statements = new StatementMapper();
  private final FittingMapper fittings = new FittingMapper();

  void toFhir(Appliance appliance, Writing writing) {
    prescriptions.toFhir(appliance, writing);
    laboratories.toFhir(appliance, writing);
    devices.toFhir(appliance, writing);
    statements.toFhir(appliance, writing);
    fittings.toFhir(appliance, writing);
  }

  void fromFhir(Draft root, Reading reading) {
    root.array("appliances");
    for (DeviceRequest request : reading.all(DeviceRequest.class)) {
      Draft draft = root.element("appliances", reading.path(request));
      prescriptions.fromFhir(request, draft, reading);
      String remakeOf =
          request.hasPriorRequest() ? reading.idOf(request.getPriorRequestFirstRep()) : null;
      for (Task task : reading.all(Task.class)) {
        if (reading.leadsTo(task.getFocus(), request)) {
          laboratories.fromFhir(task, draft, remakeOf, reading);
        }
      }
      Device device = device(request, reading);
      if (device != null) {
        devices.fromFhir(device, draft, reading);
        used(device, draft, reading);
      }
    }
  }

  private void used(Device device, Draft draft, Reading reading) {
    for (DocumentReference statement : reading.all(DocumentReference.class)) {
      if (statements.isStatement(statement, reading)
          && leadsTo(statement.getContext().getRelated(), device, reading)) {
        statements.fromFhir(statement, draft, reading);
      }
    }
    for (Procedure procedure : reading.all(Procedure.class)) {
      List<Reference> manipulated =
          procedure.getFocalDevice().stream().map(focal -> focal.getManipulated()).toList();
      if (reading.is(Codes.FITTING, procedure.getCode()) && leadsTo(manipulated, device, reading)) {
        fittings.fromFhir(procedure, draft, reading);
      }
    }
  }

  private static @Nullable Device device(DeviceRequest request, Reading reading) {
    for (Reference reference : request.getSupportingInfo()) {
      Device device = reading.resolve(reference, Device.class);
      if (device != null) {
        return device;
      }
    }
    return null;
  }

  private static boolean leadsTo(List<Reference> references, Device device, Reading reading) {
    return references.stream().anyMatch(reference -> reading.leadsTo(reference, device));
  }

  /** The id of the appliance that a Device is. */
  static String idOf(Resource device, Reading reading) {
    for (DeviceRequest request : reading.all(DeviceRequest.class)) {
      if (device(request, reading) == device) {
        return reading.id(request);
      }
    }
    return reading.id(device);
  }
}
