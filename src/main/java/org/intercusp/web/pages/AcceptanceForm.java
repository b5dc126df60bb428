package org.intercusp.web.pages;

import java.util.Objects;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/**
 * What somebody typed to accept a finding. Nothing here is trusted: a field that did not come is an
 * empty one.
 *
 * @param version the version they looked at
 * @param finding code, with subject and pointer of the very finding
 * @param family who accepts
 * @param system who issued their number
 */
public record AcceptanceForm(
    int version,
    String finding,
    String subject,
    String pointer,
    String family,
    String system,
    String value,
    String reason) {

  static final AcceptanceForm NONE = new AcceptanceForm(0, "", "", "", "", "", "", "");

  /** On one line, without spaces at its ends, as the record wants it. */
  @SuppressWarnings("NullAway") // the framework has null for what did not come
  public AcceptanceForm {
    finding = Objects.requireNonNullElse(finding, "");
    subject = Objects.requireNonNullElse(subject, "");
    pointer = Objects.requireNonNullElse(pointer, "");
    family = oneLine(family);
    system = oneLine(system);
    value = oneLine(value);
    reason = oneLine(reason);
  }

  private static String oneLine(@Nullable String text) {
    return text == null ? "" : text.replaceAll("\\s+", " ").strip();
  }

  /** The same by this person, whatever was typed. */
  AcceptanceForm by(String person) {
    return new AcceptanceForm(version, finding, subject, pointer, person, system, value, reason);
  }

  Acceptance.By by() {
    return new Acceptance.By(new Identifier(system, value), family);
  }

  /** Whether it was typed for this finding. */
  public boolean isFor(FindingView view) {
    return finding.equals(view.code())
        && subject.equals(view.subject())
        && pointer.equals(view.pointer());
  }
}
