package org.intercusp.exchange;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.LenientErrorHandler;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.OperationOutcomeIssueComponent;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.conformance.Admission;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.Issue;

/** FHIR as text, in and out. The error handler is one that logs nothing: content is a patient's. */
final class FhirText {

  static final String JSON = "application/fhir+json";
  static final String XML = "application/fhir+xml";

  /** As much of a server's words as a person reads; common practice, no source. */
  private static final int LONGEST_WORDS = 2_000;

  private final FhirContext context;
  private final Guard guard;

  FhirText(FhirContext context, Guard guard) {
    this.context = context;
    this.guard = guard;
  }

  FhirContext context() {
    return context;
  }

  byte[] written(Resource resource, boolean json) {
    return text(resource, json).getBytes(StandardCharsets.UTF_8);
  }

  String text(Resource resource, boolean json) {
    IParser parser = quiet(json ? context.newJsonParser() : context.newXmlParser());
    return parser.encodeResourceToString(resource);
  }

  /** Whether an answer claims to be FHIR. */
  static boolean isFhir(Answer answer) {
    String type = answer.mediaType();
    return type.contains("json") || (type.contains("xml") && !type.contains("html"));
  }

  private String admitted(Answer answer, Format format) throws Trouble {
    Admission admission = guard.admit(answer.body(), format);
    if (admission instanceof Admission.Admitted admitted) {
      return admitted.text();
    }
    // The issue's value and words could hold a patient's data: its rule and place cannot.
    Issue issue = ((Admission.Refused) admission).issue();
    throw new Trouble(
        Difficulty.UNACCEPTABLE,
        "The server's answer is refused (" + issue.rule() + ", line " + issue.line() + ")",
        answer.status(),
        "",
        null);
  }

  Resource read(Answer answer) throws Trouble {
    if (!isFhir(answer)) {
      String what = answer.mediaType().isEmpty() ? "something unnamed" : answer.mediaType();
      throw new Trouble(
          Difficulty.NOT_FHIR,
          "The server answered " + answer.status() + " with " + what + " instead of FHIR",
          answer.status(),
          "",
          null);
    }
    boolean json = answer.mediaType().contains("json");
    String admitted = admitted(answer, json ? Format.JSON : Format.XML);
    try {
      IParser parser = quiet(json ? context.newJsonParser() : context.newXmlParser());
      return (Resource) parser.parseResource(admitted);
    } catch (DataFormatException | ClassCastException e) {
      throw new Trouble(
          Difficulty.NOT_FHIR,
          "The server answered " + answer.status() + " with what cannot be read as FHIR",
          answer.status(),
          "",
          null);
    }
  }

  private static IParser quiet(IParser parser) {
    LenientErrorHandler handler = new LenientErrorHandler(false);
    handler.setErrorOnInvalidValue(false);
    parser.setParserErrorHandler(handler);
    return parser;
  }

  /** What an unsuccessful answer says: its OperationOutcome's texts, else its plain text. */
  String words(Answer answer) {
    if (answer.isEmpty()) {
      return "";
    }
    if (isFhir(answer)) {
      try {
        if (read(answer) instanceof OperationOutcome outcome) {
          return bounded(words(outcome));
        }
      } catch (Trouble e) {
        return "";
      }
    }
    if (answer.mediaType().equals("text/plain")) {
      return bounded(new String(answer.body(), StandardCharsets.UTF_8));
    }
    return "";
  }

  static String words(OperationOutcome outcome) {
    return outcome.getIssue().stream().map(FhirText::words).collect(Collectors.joining("\n"));
  }

  private static String words(OperationOutcomeIssueComponent issue) {
    StringBuilder text = new StringBuilder();
    if (issue.hasSeverity()) {
      text.append(issue.getSeverity().toCode().toLowerCase(Locale.ROOT)).append(": ");
    }
    text.append(
        issue.hasDiagnostics()
            ? issue.getDiagnostics()
            : issue.getDetails().hasText()
                ? issue.getDetails().getText()
                : issue.hasCode() ? issue.getCode().toCode() : "");
    if (issue.hasExpression()) {
      text.append(" (").append(issue.getExpression().get(0).getValue()).append(')');
    }
    return text.toString();
  }

  private static String bounded(String text) {
    return text.length() <= LONGEST_WORDS ? text : text.substring(0, LONGEST_WORDS) + "...";
  }
}
