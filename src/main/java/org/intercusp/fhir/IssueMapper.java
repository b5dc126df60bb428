package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueSeverity;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueStatus;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.Acceptance;
import org.jspecify.annotations.Nullable;

/**
 * Rule findings as DetectedIssue, and the acceptances that answer them as their mitigation. An
 * acceptance whose finding has cleared or changed stands on an issue of its own, since the file
 * keeps it.
 */
final class IssueMapper {

  private final AcceptanceMapper acceptances = new AcceptanceMapper();

  /** Gives the issues that carry the acceptances, in the file's order. */
  List<Reference> toFhir(List<Finding> findings, Writing writing) {
    Map<String, Integer> numbers = new HashMap<>();
    List<Acceptance> open = new ArrayList<>(writing.treatment().acceptances());
    Map<Acceptance, Reference> answered = new IdentityHashMap<>();
    List<Finding> sorted =
        findings.stream()
            .sorted(
                Comparator.comparing(Finding::code)
                    .thenComparing(Finding::subject)
                    .thenComparing(finding -> finding.pointer().text()))
            .toList();
    for (Finding finding : sorted) {
      DetectedIssue issue = issue(finding, writing);
      String[] names = names(finding.code(), finding.subject(), numbers);
      Acceptance acceptance = answer(finding, open);
      if (acceptance != null) {
        open.removeIf(one -> one == acceptance);
        acceptances.toFhir(acceptance, issue, writing);
        answered.put(acceptance, writing.to("DetectedIssue", Role.FINDING, names));
      }
      writing.add(issue, Role.FINDING, names);
    }
    for (Acceptance acceptance : open) {
      DetectedIssue issue = issue(acceptance.finding(), writing);
      implicate(issue, acceptance.subject(), "", writing);
      String[] names = names(acceptance.finding(), acceptance.subject(), numbers);
      acceptances.toFhir(acceptance, issue, writing);
      answered.put(acceptance, writing.to("DetectedIssue", Role.FINDING, names));
      writing.add(issue, Role.FINDING, names);
    }
    return writing.treatment().acceptances().stream().map(a -> answered.get(a)).toList();
  }

  private static @Nullable Acceptance answer(Finding finding, List<Acceptance> open) {
    return open.stream()
        .filter(acceptance -> acceptance.finding().equals(finding.code()))
        .filter(acceptance -> acceptance.subject().equals(finding.subject()))
        .filter(acceptance -> acceptance.values().equals(finding.values()))
        .findFirst()
        .orElse(null);
  }

  private static String[] names(String code, String subject, Map<String, Integer> numbers) {
    int number = numbers.merge(code + " " + subject, 1, Integer::sum);
    return new String[] {code, subject, Integer.toString(number)};
  }

  private static DetectedIssue issue(Finding finding, Writing writing) {
    DetectedIssue issue = issue(finding.code(), writing);
    issue.setSeverity(severity(finding.severity()));
    issue.setDetail(finding.message() + " " + finding.remedy());
    String source = finding.source().shown();
    issue.addEvidence().addCode(new CodeableConcept().setText(source));
    implicate(issue, finding.subject(), finding.pointer().text(), writing);
    return issue;
  }

  private static DetectedIssue issue(String code, Writing writing) {
    DetectedIssue issue = new DetectedIssue();
    issue.setStatus(DetectedIssueStatus.FINAL);
    issue.setCode(new CodeableConcept(LocalSystem.RULE.concept(code).coding(writing.canonicals())));
    issue.setPatient(writing.patient());
    return issue;
  }

  private static void implicate(
      DetectedIssue issue, String subject, String pointer, Writing writing) {
    Reference about = Parts.about(subject, pointer, writing);
    if (about != null) {
      issue.addImplicated(about);
    }
  }

  private static DetectedIssueSeverity severity(Severity severity) {
    return switch (severity) {
      case REFUSED, ERROR, URGENT -> DetectedIssueSeverity.HIGH;
      case WARNING -> DetectedIssueSeverity.MODERATE;
      case INFORMATION -> DetectedIssueSeverity.LOW;
    };
  }

  void fromFhir(Draft root, Reading reading) {
    for (DetectedIssue issue : reading.all(DetectedIssue.class)) {
      acceptances.fromFhir(issue, root, reading);
    }
  }
}
