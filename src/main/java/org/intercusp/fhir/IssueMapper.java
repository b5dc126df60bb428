package org.intercusp.fhir;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueSeverity;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueStatus;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.Acceptance;

/**
 * Rule findings as DetectedIssue, and the acceptances that answer them as their mitigation. An
 * acceptance whose finding has cleared or changed stands on an issue of its own, since the file
 * keeps it.
 */
final class IssueMapper {

  private final AcceptanceMapper acceptances = new AcceptanceMapper();

  /** Gives the issues that carry the acceptances, in the file's order. */
  List<Reference> toFhir(List<Finding> findings, Writing writing) {
    List<Acceptance> given = writing.treatment().acceptances();
    Map<String, Integer> numbers = new HashMap<>();
    Map<Integer, Reference> answered = new TreeMap<>();
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
      for (int i = 0; i < given.size(); i++) {
        if (!answered.containsKey(i) && !issue.hasMitigation() && answers(given.get(i), finding)) {
          acceptances.toFhir(given.get(i), issue, writing);
          answered.put(i, writing.to("DetectedIssue", Role.FINDING, names));
        }
      }
      writing.add(issue, Role.FINDING, names);
    }
    for (int i = 0; i < given.size(); i++) {
      if (!answered.containsKey(i)) {
        answered.put(i, alone(given.get(i), numbers, writing));
      }
    }
    return List.copyOf(answered.values());
  }

  private Reference alone(Acceptance acceptance, Map<String, Integer> numbers, Writing writing) {
    DetectedIssue issue = issue(acceptance.finding(), writing);
    implicate(issue, acceptance.subject(), "", writing);
    acceptances.toFhir(acceptance, issue, writing);
    String[] names = names(acceptance.finding(), acceptance.subject(), numbers);
    writing.add(issue, Role.FINDING, names);
    return writing.to("DetectedIssue", Role.FINDING, names);
  }

  private static boolean answers(Acceptance acceptance, Finding finding) {
    return acceptance.finding().equals(finding.code())
        && acceptance.subject().equals(finding.subject())
        && acceptance.values().equals(finding.values());
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
