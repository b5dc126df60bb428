package org.intercusp.web.api;

import org.intercusp.access.Clinic;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.springframework.stereotype.Component;

/** Records that a treatment is handed out in a form made to be passed on. */
@Component
final class Disclosures {

  private final AuditTrail trail;

  Disclosures(AuditTrail trail) {
    this.trail = trail;
  }

  /**
   * Records it, before it is handed out.
   *
   * @param form a few fixed words
   */
  public void note(StoredTreatment stored, String form) {
    Clinic clinic = stored.key().reached();
    trail.done(
        Deed.DISCLOSE,
        Thing.of("Treatment", clinic, stored.key().treatment()).version(stored.version()),
        form);
  }
}
