package org.intercusp.web.fhir;

import java.util.Optional;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/** Values of search parameters, taken from resources at the places that R4 names. */
final class SearchValues {

  /** A code and a date that nothing has. */
  static final String NOWHERE = "1066-10-14";

  private SearchValues() {}

  /** A value that finds a resource by a parameter; {@link #NOWHERE} where it has none. */
  static String value(String parameter, Resource one) {
    return switch (parameter) {
      case "_id" -> one.getIdElement().getIdPart();
      case "_lastUpdated" ->
          one.getMeta().getLastUpdatedElement().getValueAsString().substring(0, 10);
      case "identifier" ->
          FhirService.FHIR.newTerser().getSinglePrimitiveValueOrNull(one, "identifier.system")
              + "%7C"
              + FhirService.FHIR.newTerser().getSinglePrimitiveValueOrNull(one, "identifier.value");
      case "patient", "subject" ->
          FhirService.FHIR
              .newTerser()
              .getAllPopulatedChildElementsOfType(one, Reference.class)
              .stream()
              .map(Reference::getReference)
              .filter(text -> text != null && text.startsWith("Patient/"))
              .findFirst()
              .orElseThrow();
      default ->
          FhirService.FHIR
              .newFhirPath()
              .evaluate(
                  one,
                  FhirService.FHIR.getResourceDefinition(one).getSearchParam(parameter).getPath(),
                  Base.class)
              .stream()
              .flatMap(found -> value(found).stream())
              .findFirst()
              .orElse(NOWHERE);
    };
  }

  /** A value that finds a resource which has this at the place that R4 names. */
  private static Optional<String> value(Base found) {
    if (found instanceof CodeableConcept concept) {
      return concept.getCoding().stream().findFirst().flatMap(SearchValues::value);
    } else if (found instanceof Coding coding) {
      return Optional.of(coding.getSystem() + "%7C" + coding.getCode());
    } else if (found instanceof Period period) {
      return value(period.getStartElement());
    } else if (found instanceof BaseDateTimeType time) {
      return Optional.of("ge" + time.getValueAsString().substring(0, 10));
    }
    return Optional.of(found.primitiveValue());
  }
}
