package org.intercusp.registry.bundle;

import java.io.IOException;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.Senders;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Refusal;

/**
 * Takes an outcome Bundle into the registry, as strictly as a line of NDJSON. The door that calls
 * it has had the Bundle judged before.
 */
public final class OutcomeBundleIntake {

  private final OutcomeBundles bundles;
  private final OutcomeIntake intake;

  public OutcomeBundleIntake(OutcomeBundles bundles, OutcomeIntake intake) {
    this.bundles = bundles;
    this.intake = intake;
  }

  /** What became of a Bundle. */
  public sealed interface Taken {
    /** The registry decided; its counts say whether it is new, the same, replaced or refused. */
    record Counted(LoadStatus status) implements Taken {}

    /** It is no outcome record, for these reasons; pointers are those of the record. */
    record Refused(List<Refusal> reasons) implements Taken {}
  }

  /** Whether a Bundle says that it is an outcome. */
  public boolean isOutcome(Bundle bundle) {
    return bundles.isOutcome(bundle);
  }

  /**
   * Reads it, and takes it where it is in order.
   *
   * @param senders for whom the one who hands it in may speak
   */
  public Taken take(Bundle bundle, Senders senders) throws IOException {
    ReadSubmission read = bundles.fromBundle(bundle);
    if (read instanceof ReadSubmission.Refused refused) {
      return new Taken.Refused(refused.reasons());
    }
    return new Taken.Counted(intake.take(((ReadSubmission.Accepted) read).submission(), senders));
  }
}
