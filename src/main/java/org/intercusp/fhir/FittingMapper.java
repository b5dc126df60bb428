package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.Optional;
import org.hl7.fhir.r4.model.DeviceUseStatement;
import org.hl7.fhir.r4.model.DeviceUseStatement.DeviceUseStatementStatus;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Procedure.ProcedureStatus;
import org.intercusp.analysis.stage.Behind;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Treatment;

/** The fitting of an appliance as Procedure, and its use from then on as DeviceUseStatement. */
final class FittingMapper {

  void toFhir(Appliance appliance, Writing writing) {
    LocalDate fitted = appliance.fittedOn();
    if (fitted == null) {
      return;
    }
    Procedure fitting = new Procedure();
    fitting.setStatus(ProcedureStatus.COMPLETED);
    fitting.setCode(Codes.FITTING.concept(writing.canonicals()));
    fitting.setSubject(writing.patient());
    fitting.setPerformed(Writing.day(fitted));
    fitting.addPerformer().setActor(writing.clinician());
    fitting.addBasedOn(writing.plan());
    fitting.addFocalDevice().setManipulated(writing.to("Device", Role.APPLIANCE, appliance.id()));
    writing.add(fitting, Role.FITTING, appliance.id());
    use(appliance, fitted, writing);
  }

  private static void use(Appliance appliance, LocalDate fitted, Writing writing) {
    DeviceUseStatement use = new DeviceUseStatement();
    use.setSubject(writing.patient());
    use.setDevice(writing.to("Device", Role.APPLIANCE, appliance.id()));
    use.addReasonReference(writing.diagnosis());
    Period period = new Period().setStartElement(Writing.day(fitted));
    Optional<LocalDate> until =
        Behind.wornUntil(writing.treatment(), appliance)
            .or(() -> attendedUntil(writing.treatment(), fitted));
    use.setStatus(
        until.isPresent() ? DeviceUseStatementStatus.COMPLETED : DeviceUseStatementStatus.ACTIVE);
    until.ifPresent(day -> period.setEndElement(Writing.day(day)));
    use.setTiming(period);
    writing.add(use, Role.USE, appliance.id());
  }

  private static Optional<LocalDate> attendedUntil(Treatment treatment, LocalDate fitted) {
    return Optional.ofNullable(treatment.completion())
        .filter(ended -> treatment.hasEnded())
        .map(Completion::lastAttendedOn)
        .filter(day -> !day.isBefore(fitted));
  }

  void fromFhir(Procedure fitting, Draft appliance, Reading reading) {
    String path = reading.path(fitting) + ".performed";
    if (fitting.hasPerformedDateTimeType()) {
      String time = fitting.getPerformedDateTimeType().getValueAsString();
      appliance.put("fittedOn", Kind.day(time), path);
    } else if (fitting.hasPerformedPeriod()) {
      String time = fitting.getPerformedPeriod().getStartElement().getValueAsString();
      appliance.put("fittedOn", Kind.day(time), path);
    }
  }
}
