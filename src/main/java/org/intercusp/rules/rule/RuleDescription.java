package org.intercusp.rules.rule;

import java.util.List;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;

/**
 * What a rule is, complete: a rule that lacks a part can't be described, and the build fails.
 *
 * @param code stable, never reused
 * @param severities all it may report with
 * @param acceptable whether a named clinician's reason lets a delivery go on in spite of it
 * @param compares what it compares, in a sentence
 * @param limit the limit with its units, in words
 * @param settable the limits of it that a clinic may set
 * @param pointer where findings point, {@code *} standing for an index
 * @param fhirPath what findings are about, in a Bundle of ours
 * @param remedy what to do
 * @param source where the limit comes from
 * @param failing a treatment it finds something in
 * @param passing one it does not
 */
public record RuleDescription(
    String code,
    List<Severity> severities,
    boolean acceptable,
    String compares,
    String limit,
    List<Limit> settable,
    String pointer,
    String fhirPath,
    String remedy,
    Source source,
    Sample failing,
    Sample passing) {

  public RuleDescription {
    severities = List.copyOf(severities);
    settable = List.copyOf(settable);
    for (String part : List.of(code, compares, limit, fhirPath, remedy, pointer)) {
      if (part.isBlank()) {
        throw new IllegalArgumentException("a rule lacks a part of its description: " + code);
      }
    }
    if (severities.isEmpty() || failing.pointer().isBlank() || !passing.pointer().isBlank()) {
      throw new IllegalArgumentException("a rule lacks severity or sample: " + code);
    }
  }

  /** Starts a description. */
  public static Draft of(String code, Severity... severities) {
    return new Draft(code, List.of(severities));
  }

  /** A description on its way; {@link #samples} ends it. */
  public static final class Draft {
    private final String code;
    private final List<Severity> severities;
    private boolean acceptable = true;
    private String compares = "";
    private String limit = "";
    private List<Limit> settable = List.of();
    private String pointer = "";
    private String fhirPath = "";
    private String remedy = "";
    private Source source = Source.COMMON_PRACTICE;

    private Draft(String code, List<Severity> severities) {
      this.code = code;
      this.severities = severities;
    }

    /** No reason overrides the findings of this rule. */
    public Draft neverAcceptable() {
      acceptable = false;
      return this;
    }

    public Draft compares(String text) {
      compares = text;
      return this;
    }

    public Draft limit(String text, Limit... limits) {
      limit = text;
      settable = List.of(limits);
      return this;
    }

    public Draft about(String pointerPattern, String path) {
      pointer = pointerPattern;
      fhirPath = path;
      return this;
    }

    public Draft remedy(String text) {
      remedy = text;
      return this;
    }

    public Draft source(Source from) {
      source = from;
      return this;
    }

    public RuleDescription samples(Sample failing, Sample passing) {
      return new RuleDescription(
          code,
          severities,
          acceptable,
          compares,
          limit,
          settable,
          pointer,
          fhirPath,
          remedy,
          source,
          failing,
          passing);
    }
  }
}
