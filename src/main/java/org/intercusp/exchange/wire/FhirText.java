package org.intercusp.exchange.wire;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
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
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;
import org.intercusp.finding.ShortText;

/** FHIR as text, in and out: R4 on this side, what the server speaks on the other. */
public final class FhirText {

  static final String JSON = "application/fhir+json";
  static final String XML = "application/fhir+xml";

  /** As much of a server's words as a person reads; common practice, no source. */
  private static final int LONGEST_WORDS = 2_000;

  private final FhirContext context;
  private final Conversion conversion;
  private final Guard guard;

  FhirText(FhirContext context, Canonicals canonicals, Guard guard) {
    this.context = context;
    this.conversion = Conversion.compact(context, canonicals.base());
    this.guard = guard;
  }

  /** The context for R4. */
  public FhirContext context() {
    return context;
  }

  /** Writes what is R4 here in the release that the server speaks. */
  byte[] written(Resource resource, boolean json, Release release) throws Trouble {
    try {
      return json ? conversion.json(resource, release) : conversion.xml(resource, release);
    } catch (DataFormatException e) {
      throw new Trouble(
          Difficulty.UNSUITABLE,
          "A " + resource.fhirType() + " cannot be written in FHIR " + release.number());
    }
  }

  /** A resource as R4 JSON, to be compared. */
  public String text(Resource resource) {
    return new String(conversion.json(resource, Release.R4), StandardCharsets.UTF_8);
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

  /** Reads an answer in the release that the server speaks as R4. */
  Resource read(Answer answer, Release release) throws Trouble {
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
      return json ? conversion.fromJson(admitted, release) : conversion.fromXml(admitted, release);
    } catch (DataFormatException | ClassCastException e) {
      throw new Trouble(
          Difficulty.NOT_FHIR,
          "The server answered " + answer.status() + " with what cannot be read as FHIR",
          answer.status(),
          "",
          null);
    }
  }

  /** What an unsuccessful answer says: its OperationOutcome's texts, else its plain text. */
  String words(Answer answer) {
    if (answer.isEmpty()) {
      return "";
    }
    if (isFhir(answer)) {
      try {
        // An OperationOutcome says the same in every release.
        if (read(answer, Release.R4) instanceof OperationOutcome outcome) {
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
    return ShortText.shown(text, LONGEST_WORDS);
  }
}
