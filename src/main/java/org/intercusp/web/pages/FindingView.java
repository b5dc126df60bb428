package org.intercusp.web.pages;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Value;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.treatment.Acceptance;

/**
 * A finding in the words of a page.
 *
 * @param number from 1, for the anchors of the page
 */
public record FindingView(Judged judged, int number) {

  static List<FindingView> of(Examination examination) {
    List<FindingView> views = new ArrayList<>();
    for (Judged judged : examination.findings()) {
      views.add(new FindingView(judged, views.size() + 1));
    }
    return views;
  }

  public Finding finding() {
    return judged.finding();
  }

  public String anchor() {
    return "finding-" + number;
  }

  public boolean accepted() {
    return judged.accepted();
  }

  /** Whether a reason may be given for it: an error or a sign of harm that can be answered. */
  public boolean open() {
    return !accepted() && weighs() && RuleCatalogue.acceptable(code());
  }

  /** Whether it stops deliveries and no reason can change that. */
  public boolean never() {
    return (weighs() && !RuleCatalogue.acceptable(code())) || severity().equals("refused");
  }

  private boolean weighs() {
    Severity severity = finding().severity();
    return severity == Severity.ERROR || severity == Severity.URGENT;
  }

  /** The severity's code, which is also the style it is shown in. */
  public String severity() {
    return finding().severity().code();
  }

  public String severityShown() {
    return switch (finding().severity()) {
      case REFUSED -> "Refused";
      case URGENT -> "Sign of harm";
      case ERROR -> "Error";
      case WARNING -> "Warning";
      case INFORMATION -> "Information";
    };
  }

  public String code() {
    return finding().code();
  }

  public String subject() {
    return finding().subject();
  }

  public String pointer() {
    return finding().pointer().text();
  }

  public String message() {
    return finding().message();
  }

  public String remedy() {
    return finding().remedy();
  }

  /** The limit with its unit and where it comes from. */
  public String basis() {
    Value limit = finding().limit();
    String source = finding().source().shown();
    if (limit == null) {
      return source;
    }
    return "Limit " + limit.shown(finding().unit()) + "; " + source;
  }

  /** The acceptance that counts for it, with its place in the record. */
  public Acceptance acceptance() {
    Acceptance acceptance = judged.acceptance();
    if (acceptance == null) {
      throw new IllegalStateException("not accepted");
    }
    return acceptance;
  }
}
