package org.intercusp.app;

import org.intercusp.access.Caller;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Outcome;
import org.intercusp.audit.Thing;
import org.intercusp.registry.intake.LoadCounts;
import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.intake.SubmissionWitness;

/**
 * What is submitted to the registry, in the trail: one record when it is handed in and one when its
 * load ends, both in the name of who handed it in, however many lines it has. A load that took
 * something out since consent was withdrawn leaves another for that.
 */
final class SubmissionTrail implements SubmissionWitness {

  /** For a submission whose first record is not there, such as one of before the trail had them. */
  private static final Caller REGISTRY = Caller.worker("registry");

  private final AuditTrail trail;

  SubmissionTrail(AuditTrail trail) {
    this.trail = trail;
  }

  @Override
  public void received(String id) {
    trail.done(Deed.QUEUE, Thing.submission(id), "outcomes handed in");
  }

  @Override
  public void ending(LoadStatus end) {
    trail.callers().as(REGISTRY, () -> told(end));
  }

  private boolean told(LoadStatus end) {
    Thing submission = Thing.submission(end.id());
    LoadCounts counts = end.counts();
    trail.followed(Deed.CREATE, outcome(end), submission, words(end));
    if (counts.withdrawn() > 0) {
      trail.followed(
          Deed.DELETE, Outcome.SUCCESS, submission, "consent withdrawn: " + counts.withdrawn());
    }
    return true;
  }

  private static Outcome outcome(LoadStatus end) {
    if (end.state() == LoadStatus.State.FAILED) {
      return Outcome.FAILED;
    }
    boolean nothing = end.counts().refused() == end.counts().read() && end.counts().read() > 0;
    return nothing ? Outcome.REFUSED : Outcome.SUCCESS;
  }

  private static String words(LoadStatus end) {
    LoadCounts counts = end.counts();
    String why = end.reason() == null ? "" : end.reason() + ": ";
    return why
        + "%d read, %d new, %d same, %d replaced, %d refused"
            .formatted(
                counts.read(), counts.fresh(), counts.same(), counts.replaced(), counts.refused());
  }
}
