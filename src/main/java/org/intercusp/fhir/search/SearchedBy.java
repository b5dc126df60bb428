package org.intercusp.fhir.search;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.RuntimeSearchParam;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Enumerations.SearchParamType;

/**
 * The search parameters by codes and times that are offered, for every type that R4 defines them
 * for; of times, one a type. What each finds is R4's own expression.
 */
public enum SearchedBy {
  CODE("code", "What it is, by code."),
  COMPONENT_CODE("component-code", "What its components are, by code."),
  CATEGORY("category", "Of which category."),
  TYPE("type", "Of which type."),
  CLASS("class", "Of which class."),
  EVENT("event", "What happened, by code."),
  INTENT("intent", "With which intent."),
  STATUS("status", "Its status."),
  CLINICAL_STATUS("clinical-status", "Its clinical status."),
  LIFECYCLE_STATUS("lifecycle-status", "Its status."),
  DATE("date", "When it happened or was recorded."),
  AUTHORED("authored", "When it was written."),
  AUTHORED_ON("authored-on", "When it was written."),
  IDENTIFIED("identified", "When it was found."),
  RECORDED_DATE("recorded-date", "When it was recorded."),
  TARGET_DATE("target-date", "When it is to be reached."),
  BIRTHDATE("birthdate", "Day of birth.");

  /** Raised whenever this list, or what is found by one of it, changes. */
  public static final int FORM = 1;

  private final String code;
  private final String meaning;

  SearchedBy(String code, String meaning) {
    this.code = code;
    this.meaning = meaning;
  }

  /** The name in a search. */
  public String code() {
    return code;
  }

  /** One line for people. */
  public String meaning() {
    return meaning;
  }

  /** TOKEN or DATE; what R4 defines otherwise is not offered. */
  public SearchParamType type() {
    return compareTo(DATE) < 0 ? SearchParamType.TOKEN : SearchParamType.DATE;
  }

  /** Those that R4 defines for a type of resource. */
  public static List<SearchedBy> of(String resourceType) {
    return Arrays.stream(values()).filter(one -> one.expression(resourceType).isPresent()).toList();
  }

  /** The FHIRPath of what is found in resources of a type; empty where R4 defines none. */
  Optional<String> expression(String resourceType) {
    RuntimeSearchParam defined =
        FhirContext.forR4Cached().getResourceDefinition(resourceType).getSearchParam(code);
    return Optional.ofNullable(defined)
        .filter(one -> one.getParamType().name().equals(type().name()))
        .map(RuntimeSearchParam::getPath);
  }

  /** Whether R4 searches a type by the subject it speaks of. */
  public static boolean hasSubject(String resourceType) {
    return FhirContext.forR4Cached().getResourceDefinition(resourceType).getSearchParam("subject")
        != null;
  }
}
