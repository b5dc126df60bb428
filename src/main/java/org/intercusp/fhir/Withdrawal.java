package org.intercusp.fhir;

import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.AllergyIntolerance;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Goal;
import org.hl7.fhir.r4.model.PractitionerRole;
import org.hl7.fhir.r4.model.Resource;

/**
 * Marks a stored resource whose element went away: entered in error, or the nearest its type has.
 * PractitionerRole is made inactive, an Appointment cancelled; an AdverseEvent, which has no status
 * in R4, becomes a potential one that nothing is suspected of.
 */
public final class Withdrawal {

  private static final String ENTERED_IN_ERROR = "entered-in-error";

  private Withdrawal() {}

  /** A copy of the resource, withdrawn. */
  public static Resource of(Resource stored) {
    Resource resource = stored.copy();
    if (resource instanceof Condition condition) {
      // con-5: no clinical status where the record was an error
      condition.setClinicalStatus(null);
      condition.setVerificationStatus(error("condition-ver-status"));
    } else if (resource instanceof AllergyIntolerance allergy) {
      allergy.setClinicalStatus(null);
      allergy.setVerificationStatus(error("allergyintolerance-verification"));
    } else if (resource instanceof Goal goal) {
      goal.setLifecycleStatus(Goal.GoalLifecycleStatus.ENTEREDINERROR);
    } else if (resource instanceof PractitionerRole role) {
      role.setActive(false);
    } else if (resource instanceof AdverseEvent event) {
      event.setActuality(AdverseEvent.AdverseEventActuality.POTENTIAL);
      event.getSuspectEntity().clear();
    } else if (resource instanceof Appointment appointment) {
      // app-3: nothing but a proposed or cancelled one may lack its times.
      appointment.setStatus(Appointment.AppointmentStatus.CANCELLED);
    } else {
      resource.setProperty("status", new CodeType(ENTERED_IN_ERROR));
    }
    return resource;
  }

  /** Whether a resource has been withdrawn. */
  public static boolean isWithdrawn(Resource resource) {
    if (resource instanceof Condition condition) {
      return isError(condition.getVerificationStatus());
    }
    if (resource instanceof AllergyIntolerance allergy) {
      return isError(allergy.getVerificationStatus());
    }
    if (resource instanceof Goal goal) {
      return goal.getLifecycleStatus() == Goal.GoalLifecycleStatus.ENTEREDINERROR;
    }
    if (resource instanceof PractitionerRole role) {
      return Boolean.FALSE.equals(role.getActiveElement().getValue());
    }
    if (resource instanceof Appointment appointment) {
      return appointment.getStatus() == Appointment.AppointmentStatus.CANCELLED
          || appointment.getStatus() == Appointment.AppointmentStatus.ENTEREDINERROR;
    }
    if (resource instanceof AdverseEvent event) {
      return event.getActuality() == AdverseEvent.AdverseEventActuality.POTENTIAL;
    }
    return BundleIndex.children(resource, "status").stream()
        .anyMatch(
            status -> status.isPrimitive() && ENTERED_IN_ERROR.equals(status.primitiveValue()));
  }

  private static CodeableConcept error(String system) {
    return Codes.hl7Concept(system, ENTERED_IN_ERROR, "Entered in Error");
  }

  private static boolean isError(CodeableConcept status) {
    return status.getCoding().stream().anyMatch(c -> ENTERED_IN_ERROR.equals(c.getCode()));
  }
}
