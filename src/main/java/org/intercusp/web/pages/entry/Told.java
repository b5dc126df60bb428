package org.intercusp.web.pages.entry;

import org.intercusp.finding.Finding;

/**
 * A finding beside a form.
 *
 * @param severity its code, which is also the style it is shown in
 * @param weight the same as a person reads it
 */
public record Told(String severity, String weight, String code, String message, String remedy) {

  static Told of(Finding finding) {
    String severity = finding.severity().code();
    return new Told(
        severity,
        Character.toUpperCase(severity.charAt(0)) + severity.substring(1),
        finding.code(),
        finding.message(),
        finding.remedy());
  }
}
