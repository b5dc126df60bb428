package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Task;
import org.hl7.fhir.r4.model.Task.TaskIntent;
import org.hl7.fhir.r4.model.Task.TaskStatus;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.LabOrder;
import org.intercusp.treatment.Organisation;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** What the laboratory is asked to make, from what and by when, as Task on the order. */
final class LaboratoryMapper {

  private static final Concept RECORDS = PrescriptionMapper.part("records");
  private static final Concept DISINFECTED = PrescriptionMapper.part("disinfected");
  private static final Concept COLOUR = PrescriptionMapper.part("colour");
  private static final Concept RETENTION = PrescriptionMapper.part("retention");
  private static final Concept MADE = PrescriptionMapper.part("made");
  private static final Concept STATEMENT = PrescriptionMapper.part("statement");

  private static final Kind<LabOrder.Records> RECORDS_KIND = Kind.coded(LocalSystem.LAB_RECORDS);
  private static final Kind<Integer> YEARS = Kind.count(Unit.YEAR);

  private static TaskStatus status(Appliance appliance, Treatment treatment) {
    if (appliance.fittedOn() != null) {
      return TaskStatus.COMPLETED;
    }
    return treatment.hasEnded() ? TaskStatus.CANCELLED : TaskStatus.REQUESTED;
  }

  void toFhir(Appliance appliance, Writing writing) {
    LabOrder lab = appliance.lab();
    if (lab == null) {
      return;
    }
    Task task = new Task();
    task.setStatus(status(appliance, writing.treatment()));
    task.setIntent(TaskIntent.ORDER);
    task.setCode(Codes.MAKE_APPLIANCE.concept(writing.canonicals()));
    task.setFocus(writing.to("DeviceRequest", Role.PRESCRIPTION, appliance.id()));
    task.setFor(writing.patient());
    task.setAuthoredOnElement(Writing.day(appliance.orderedOn()));
    task.setRequester(writing.clinician());
    Organisation laboratory = writing.treatment().laboratory();
    if (laboratory != null) {
      task.setOwner(new Reference(Identity.urn("Organization", laboratory.identifier())));
    }
    task.getRestriction().getPeriod().setEndElement(Writing.day(lab.requiredOn()));
    Canonicals canonicals = writing.canonicals();
    input(task, RECORDS, RECORDS_KIND, lab.records(), canonicals);
    input(task, DISINFECTED, Kind.bool(), lab.disinfected(), canonicals);
    input(task, COLOUR, Kind.text(), lab.colour(), canonicals);
    input(task, RETENTION, YEARS, lab.retentionYears(), canonicals);
    output(task, MADE, writing.to("Device", Role.APPLIANCE, appliance.id()), canonicals);
    if (appliance.statement() != null) {
      Reference statement = writing.to("DocumentReference", Role.STATEMENT, appliance.id());
      output(task, STATEMENT, statement, canonicals);
    }
    writing.add(task, Role.LABORATORY_TASK, appliance.id());
  }

  private static <V> void input(
      Task task, Concept code, Kind<V> kind, @Nullable V value, Canonicals canonicals) {
    if (value != null) {
      task.addInput()
          .setType(code.concept(canonicals))
          .setValue(kind.out().apply(value, canonicals));
    }
  }

  private static void output(Task task, Concept code, Reference to, Canonicals canonicals) {
    task.addOutput().setType(code.concept(canonicals)).setValue(to);
  }

  /** Reads the task into the appliance whose order it is about. */
  void fromFhir(Task task, Draft appliance, @Nullable String remakeOf, Reading reading) {
    String path = reading.path(task);
    Draft lab = appliance.object("lab", path);
    lab.put(
        "requiredOn",
        Kind.day(task.getRestriction().getPeriod().getEndElement().getValueAsString()),
        path + ".restriction.period.end");
    lab.put("remakeOf", remakeOf, path + ".focus");
    for (int i = 0; i < task.getInput().size(); i++) {
      Task.ParameterComponent input = task.getInput().get(i);
      String at = path + ".input[" + i + "].value";
      Type value = input.hasValue() ? input.getValue() : null;
      if (reading.is(RECORDS, input.getType())) {
        lab.put("records", reading.value(RECORDS_KIND, value, at), at);
      } else if (reading.is(DISINFECTED, input.getType())) {
        lab.put("disinfected", reading.value(Kind.bool(), value, at), at);
      } else if (reading.is(COLOUR, input.getType())) {
        lab.put("colour", reading.value(Kind.text(), value, at), at);
      } else if (reading.is(RETENTION, input.getType())) {
        lab.put("retentionYears", reading.value(YEARS, value, at), at);
      }
    }
  }
}
