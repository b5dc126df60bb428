package org.intercusp.web.pages;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Acceptance;

/** A finding in the words of a page. */
public record FindingView(Finding finding, String acceptanceShown) {

  static List<FindingView> of(Examination examination) {
    return examination.findings().stream().map(FindingView::of).toList();
  }

  private static FindingView of(Judged judged) {
    Acceptance acceptance = judged.acceptance();
    String shown =
        acceptance == null
            ? ""
            : "accepted by %s on %s: %s"
                .formatted(acceptance.by().family(), acceptance.on(), acceptance.reason());
    return new FindingView(judged.finding(), shown);
  }

  public boolean accepted() {
    return !acceptanceShown.isEmpty();
  }

  /** The severity's code, which is also the style it is shown in. */
  public String severity() {
    return finding.severity().code();
  }

  public String severityShown() {
    return switch (finding.severity()) {
      case REFUSED -> "Refused";
      case URGENT -> "Urgent";
      case ERROR -> "Error";
      case WARNING -> "Warning";
      case INFORMATION -> "Information";
    };
  }

  public String code() {
    return finding.code();
  }

  public String message() {
    return finding.message();
  }

  public String remedy() {
    return finding.remedy();
  }
}
