package org.intercusp.fhir.search;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.fhirpath.IFhirPath;
import ca.uhn.fhir.fhirpath.IFhirPath.IParsedExpression;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Enumeration;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Resource;

/** Finds in resources what they are searched by, with R4's own expressions. */
public final class SearchTerms {

  /** Longer ones are nobody's code; common practice, no source. FHIR has no line breaks in one. */
  private static final Pattern CODE = Pattern.compile(".{1,200}");

  /** Systems are URIs, which have no white space. */
  private static final Pattern SYSTEM = Pattern.compile("\\S{0,400}");

  private final IFhirPath paths;
  private final Map<String, Map<SearchedBy, IParsedExpression>> expressions =
      new ConcurrentHashMap<>();

  public SearchTerms(FhirContext context) {
    this.paths = context.newFhirPath();
  }

  /** Everything a resource is searched by, each once. */
  public Set<Term> of(Resource resource) {
    Set<Term> terms = new LinkedHashSet<>();
    expressions
        .computeIfAbsent(resource.fhirType(), this::parsed)
        .forEach(
            (by, expression) ->
                paths
                    .evaluate(resource, expression, Base.class)
                    .forEach(value -> add(terms, by, value)));
    return terms;
  }

  private Map<SearchedBy, IParsedExpression> parsed(String type) {
    Map<SearchedBy, IParsedExpression> parsed = new LinkedHashMap<>();
    for (SearchedBy by : SearchedBy.of(type)) {
      by.expression(type).ifPresent(text -> parsed.put(by, path(text)));
    }
    return parsed;
  }

  private IParsedExpression path(String expression) {
    try {
      return paths.parse(expression);
    } catch (Exception e) {
      throw new IllegalStateException("R4 defines a search that is no FHIRPath", e);
    }
  }

  private static void add(Set<Term> terms, SearchedBy by, Base value) {
    if (value instanceof CodeableConcept concept) {
      concept.getCoding().forEach(coding -> add(terms, by, coding));
    } else if (value instanceof Coding coding) {
      code(terms, by, coding.getSystem(), coding.getCode());
    } else if (value instanceof Enumeration<?> code) {
      code(terms, by, code.getSystem(), code.getValueAsString());
    } else if (value instanceof BaseDateTimeType time) {
      Optional<Spans.Span> span = Spans.of(time);
      time(terms, by, span, span);
    } else if (value instanceof Period period) {
      time(terms, by, Spans.of(period.getStartElement()), Spans.of(period.getEndElement()));
    } else if (value instanceof PrimitiveType<?> code) {
      code(terms, by, "", code.getValueAsString());
    }
  }

  private static void code(Set<Term> terms, SearchedBy by, String system, String code) {
    String said = system == null ? "" : system;
    if (code != null && CODE.matcher(code).matches() && SYSTEM.matcher(said).matches()) {
      terms.add(new Term.Coded(by, said, code));
    }
  }

  private static void time(
      Set<Term> terms, SearchedBy by, Optional<Spans.Span> first, Optional<Spans.Span> last) {
    if (first.isPresent() || last.isPresent()) {
      terms.add(
          new Term.Timed(
              by,
              first.map(Spans.Span::begins).orElse(null),
              last.map(Spans.Span::ends).orElse(null)));
    }
  }
}
