package org.intercusp.web.api;

import java.time.LocalDate;
import java.util.Locale;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Outcome;
import org.intercusp.audit.Thing;
import org.springframework.stereotype.Component;

/** Records what is asked of the registry, before it is answered. */
@Component
public final class RegistryDeeds {

  private final AuditTrail trail;

  RegistryDeeds(AuditTrail trail) {
    this.trail = trail;
  }

  /**
   * A report is handed out. It adds up cases and is of no patient.
   *
   * @param form a word for its form
   */
  public void reported(String form, LocalDate cutOff) {
    trail.done(
        Deed.READ,
        Thing.list("MeasureReport"),
        "registry report as %s up to %s".formatted(form.toLowerCase(Locale.ROOT), cutOff));
  }

  /** Somebody is told where a submission stands, and what was refused of it. */
  public void looked(String submission) {
    trail.done(Deed.READ, Thing.submission(submission));
  }

  /**
   * A submission is refused whole; nothing of it is kept.
   *
   * @param why a few fixed words
   */
  public void refused(String why) {
    trail.ended(Deed.CREATE, Outcome.REFUSED, Thing.submission(null), why);
  }
}
