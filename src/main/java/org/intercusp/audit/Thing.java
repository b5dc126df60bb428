package org.intercusp.audit;

import org.intercusp.access.Clinic;
import org.jspecify.annotations.Nullable;

/**
 * What it was done to. Nothing in it says who the patient is.
 *
 * @param type {@code Treatment}, {@code Delivery}, {@code OutcomeSubmission} and the like, or the
 *     FHIR type of a resource
 * @param clinic whose it is; absent where it is nobody's or not known
 * @param id the id in that clinic; absent for a list
 * @param version absent where it is the newest, or has none
 * @param recipient who was given it, by the name in the configuration
 */
public record Thing(
    String type,
    @Nullable Clinic clinic,
    @Nullable String id,
    @Nullable Integer version,
    @Nullable String recipient) {

  /** The type of what is handed in to the registry. */
  public static final String SUBMISSION = "OutcomeSubmission";

  /** The type of a bulk export; its id is that of the job. */
  public static final String EXPORT = "Export";

  /** The type of a clinic, all of whose data leave at once. */
  public static final String CLINIC = "Clinic";

  /** Outcomes handed in to the registry together; their clinic is that of who hands them in. */
  public static Thing submission(@Nullable String id) {
    return new Thing(SUBMISSION, null, id, null, null);
  }

  /** Something with an id. */
  public static Thing of(String type, Clinic clinic, String id) {
    return new Thing(type, clinic, id, null, null);
  }

  /** A list of such things. */
  public static Thing list(String type) {
    return new Thing(type, null, null, null, null);
  }

  /** In this version. */
  public Thing version(int number) {
    return new Thing(type, clinic, id, number, recipient);
  }

  /** Given to this recipient. */
  public Thing to(String name) {
    return new Thing(type, clinic, id, version, name);
  }
}
