package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.Unit;

/** A section's resources in words: one line each, from codes, values and dates. */
final class Narrative {

  /** Elements whose words name a resource, the first there is. */
  private static final List<String> NAMES =
      List.of("code", "type", "title", "description", "category", "name");

  /** Elements that say when. */
  private static final List<String> DATES =
      List.of(
          "effective[x]",
          "performed[x]",
          "authoredOn",
          "recordedDate",
          "period",
          "timing[x]",
          "onset[x]",
          "date",
          "dateTime",
          "requestedPeriod");

  private Narrative() {}

  static org.hl7.fhir.r4.model.Narrative of(List<DomainResource> resources) {
    StringBuilder lines = new StringBuilder("<div xmlns=\"http://www.w3.org/1999/xhtml\"><ul>");
    for (DomainResource resource : resources) {
      lines.append("<li>").append(escaped(line(resource))).append("</li>");
    }
    return generated(lines.append("</ul></div>").toString());
  }

  /** Paragraphs of plain text. */
  static org.hl7.fhir.r4.model.Narrative of(String... paragraphs) {
    StringBuilder lines = new StringBuilder("<div xmlns=\"http://www.w3.org/1999/xhtml\">");
    for (String paragraph : paragraphs) {
      lines.append("<p>").append(escaped(paragraph)).append("</p>");
    }
    return generated(lines.append("</div>").toString());
  }

  private static org.hl7.fhir.r4.model.Narrative generated(String xhtml) {
    org.hl7.fhir.r4.model.Narrative narrative = new org.hl7.fhir.r4.model.Narrative();
    narrative.setStatus(org.hl7.fhir.r4.model.Narrative.NarrativeStatus.GENERATED);
    narrative.setDivAsString(xhtml);
    return narrative;
  }

  private static String line(DomainResource resource) {
    StringBuilder line = new StringBuilder(first(resource, NAMES, resource.fhirType()));
    if (resource instanceof Observation observation) {
      line.append(said(observation));
    }
    if (resource instanceof org.hl7.fhir.r4.model.DetectedIssue issue && issue.hasDetail()) {
      line.append(": ").append(issue.getDetail());
    }
    String date = first(resource, DATES, "");
    return date.isEmpty() ? line.toString() : line.append(" (").append(date).append(")").toString();
  }

  private static String said(Observation observation) {
    List<String> said = new ArrayList<>();
    if (observation.hasValue()) {
      said.add(words(observation.getValue()));
    }
    for (Observation.ObservationComponentComponent part : observation.getComponent()) {
      Type value = part.hasValue() ? part.getValue() : part.getDataAbsentReason();
      said.add(words(part.getCode()) + " " + words(value));
    }
    return said.isEmpty() ? "" : ": " + String.join(", ", said);
  }

  private static String first(DomainResource resource, List<String> names, String otherwise) {
    for (String name : names) {
      for (Property property : resource.children()) {
        if (property.getName().equals(name) && property.hasValues()) {
          return words(property.getValues().get(0));
        }
      }
    }
    return otherwise;
  }

  private static String words(Base value) {
    if (value instanceof org.hl7.fhir.r4.model.Quantity quantity && quantity.hasUnit()) {
      return amount(quantity);
    }
    if (value instanceof CodeableConcept concept && !concept.hasText() && concept.hasCoding()) {
      org.hl7.fhir.r4.model.Coding coding = concept.getCodingFirstRep();
      return coding.hasDisplay() ? coding.getDisplay() : coding.getCode();
    }
    if (value instanceof org.hl7.fhir.r4.model.Period period) {
      return period(period);
    }
    return Strays.shown(value);
  }

  /** With the unit as people write it. */
  private static String amount(org.hl7.fhir.r4.model.Quantity quantity) {
    String number = quantity.getValue().toPlainString();
    return Stream.of(Unit.values())
        .filter(unit -> unit.ucum().equals(quantity.getCode()))
        .findFirst()
        .map(unit -> unit.behind(number))
        .orElseGet(() -> number + " " + quantity.getUnit());
  }

  private static String period(org.hl7.fhir.r4.model.Period period) {
    String start = period.hasStart() ? period.getStartElement().getValueAsString() : "";
    String end = period.hasEnd() ? period.getEndElement().getValueAsString() : "";
    if (start.isEmpty() || end.isEmpty()) {
      return start.isEmpty() ? "to " + end : "from " + start;
    }
    return start.equals(end) ? start : start + " to " + end;
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
