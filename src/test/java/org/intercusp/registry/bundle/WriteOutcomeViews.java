package org.intercusp.registry.bundle;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.intercusp.registry.store.CaseColumns;
import org.intercusp.registry.store.CaseExport;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome.Phase;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes {@code profiles/other/ViewDefinition-outcome-cases.json}: the columns of the exported
 * cases as paths over outcome Bundles, one row a Bundle. Its paths use FHIRPath beyond what every
 * runner must have, since days between two dates have no function there.
 */
final class WriteOutcomeViews {

  static final Path FILE = Path.of("profiles", "other", "ViewDefinition-outcome-cases.json");

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  private static final Map<String, String> PAR =
      Map.of(
          "ua", "upper-anterior",
          "la", "lower-anterior",
          "br", "buccal-right",
          "bl", "buccal-left",
          "oj", "overjet",
          "ob", "overbite",
          "cl", "centreline");

  private static final Map<String, String> ICON =
      Map.of(
          "ae", "aesthetic",
          "cs", "crowding-spacing",
          "cb", "crossbite",
          "v", "vertical",
          "br", "buccal-right",
          "bl", "buccal-left");

  /** Weights of the UK score; Eur J Orthod 1992;14:180-187. */
  private static final Map<String, Integer> WEIGHTS =
      Map.of("ua", 1, "la", 1, "br", 1, "bl", 1, "oj", 6, "ob", 2, "cl", 4);

  /** A day as its number: months counted from March, so that the leap day is the last of a year. */
  private static final String DAY_NUMBER =
      "select((substring(0, 4).toInteger() * 12 + substring(5, 2).toInteger() - 3)"
          + ".select($this div 12 * 365 + $this div 48 - $this div 1200 + $this div 4800"
          + " + (($this mod 12) * 306 + 5) div 10) + substring(8, 2).toInteger())";

  private final Canonicals canonicals = Canonicals.RESERVED;
  private final ObjectNode view = JSON.createObjectNode();
  private final ArrayNode select;

  private WriteOutcomeViews() {
    head();
    this.select = view.putArray("select");
    whole(select.addObject().putArray("column"));
    course(of("course", ""));
    for (Phase phase : Phase.values()) {
      String at = phase == Phase.RETENTION_12_MONTHS ? "retention" : phase.code().replace('-', '_');
      String only = " and value.ofType(CodeableConcept).coding.exists(code = '%s')";
      assessment(at, of("assessment", only.formatted(phase.code())));
    }
    twice();
    view.putArray("where").addObject().put("path", "meta.profile.exists($this = %profile)");
    view.withArray("where")
        .addObject()
        .put("path", "entry.resource.ofType(Consent).exists(status = 'active')");
  }

  public static void main(String[] arguments) throws IOException {
    Files.writeString(FILE, text());
  }

  static String text() {
    return JSON.writeValueAsString(new WriteOutcomeViews().view) + "\n";
  }

  private void head() {
    view.put("resourceType", "https://sql-on-fhir.org/ig/StructureDefinition/ViewDefinition");
    view.put("url", canonicals.base() + "/ViewDefinition/outcome-cases");
    view.put("version", "0.1.0").put("name", "outcome_cases").put("title", "Outcome cases");
    view.put("status", "draft").put("experimental", false).put("date", "2026-11-26");
    view.put("publisher", "The Intercusp project");
    view.put(
        "description",
        "One row a case over Bundles of the profile outcome-bundle, in the columns of the exported"
            + " cases where dates are reduced to the month and ages to months. Not here: what only"
            + " the registry knows (sequence, received_month) and hashes under its key (person,"
            + " treatment). The paths use FHIRPath functions beyond the shareable subset: toString,"
            + " substring, toInteger, select, iif, combine, aggregate, startsWith.");
    view.put("resource", "Bundle");
    ArrayNode constants = view.putArray("constant");
    constant(constants, "profile", canonicals.base() + "/StructureDefinition/outcome-bundle");
    constant(constants, "items", canonicals.of(LocalSystem.REGISTRY_ITEM));
    constant(constants, "treatments", canonicals.base() + "/sid/treatment");
    constant(constants, "revisions", canonicals.base() + "/sid/outcome-revision");
  }

  private static void constant(ArrayNode constants, String name, String value) {
    constants.addObject().put("name", name).put("valueUri", value);
  }

  private static String observation(String item, String only) {
    return "entry.resource.ofType(Observation).where(code.coding.exists(system = %items and code ="
        + " '"
        + item
        + "')"
        + only
        + ")";
  }

  private ArrayNode of(String item, String only) {
    return select
        .addObject()
        .put("forEachOrNull", observation(item, only) + ".first()")
        .putArray("column");
  }

  private static void whole(ArrayNode columns) {
    String submitter = "identifier.assigner.identifier";
    String treatment = "entry.resource.ofType(Consent).identifier.where(system = %treatments)";
    add(columns, "submitter", "string", bar(submitter));
    add(columns, "clinic", "string", bar(treatment + ".assigner.identifier"));
    add(columns, "sex", "code", "entry.resource.ofType(Patient).gender");
    String birth = "entry.resource.ofType(Patient).birthDate.toString()";
    String fitted =
        observation("course", "")
            + "."
            + component("first-fitted")
            + ".ofType(dateTime).toString()";
    String months = "select(substring(0, 4).toInteger() * 12 + substring(5, 2).toInteger())";
    add(
        columns,
        "age_months",
        "integer",
        "%1$s.%3$s - %2$s.%3$s - iif(%1$s.substring(8, 2).toInteger() < %2$s.substring(8, 2).toInteger(), 1, 0)"
            .formatted(fitted, birth, months));
    String revision = "entry.resource.ofType(Consent).identifier.where(system = %revisions).value";
    add(
        columns,
        "revision",
        "integer",
        "iif(%1$s.exists(), %1$s.toInteger(), 1)".formatted(revision));
  }

  private static String bar(String identifier) {
    return identifier + ".system + '|' + " + identifier + ".value";
  }

  private static void course(ArrayNode columns) {
    for (String item : List.of("growth-stage", "appliance", "status", "reason")) {
      add(
          columns,
          item.replace('-', '_'),
          "code",
          item.equals("status") ? told(item) : coded(item));
    }
    String fitted = component("first-fitted") + ".ofType(dateTime).toString()";
    add(columns, "first_fitted_month", "string", fitted + ".substring(0, 7)");
    add(columns, "start_year", "integer", fitted + ".substring(0, 4).toInteger()");
    add(columns, "treatment_days", "integer", days(fitted, "decided"));
    add(columns, "last_attended_days", "integer", days(fitted, "last-attended"));
    for (String stage : List.of("active", "support", "fixed", "retention")) {
      String quantity = component("days-" + stage) + ".ofType(Quantity).value";
      add(columns, stage + "_days", "integer", quantity + ".toInteger()");
    }
    add(columns, "reviews", "integer", whole("reviews"));
    add(columns, "wear_reported", "decimal", decimal("wear-reported"));
    add(columns, "wear_measured", "decimal", decimal("wear-measured"));
    add(columns, "breakages", "integer", whole("breakages"));
    for (HarmEvent.Code code : HarmEvent.Code.values()) {
      add(
          columns,
          "ae_" + code.code().replace('-', '_'),
          "integer",
          "iif(%1$s.exists(), %1$s, 0)".formatted(whole("harm-" + code.code())));
    }
    add(
        columns,
        "ae_serious",
        "integer",
        "component.where(code.coding.exists(system = %items and code.startsWith('serious-')))"
            + ".value.ofType(integer).aggregate($this + $total, 0)");
  }

  private static String days(String fitted, String item) {
    return "%s.ofType(dateTime).toString().%s - %s.%s"
        .formatted(component(item), DAY_NUMBER, fitted, DAY_NUMBER);
  }

  private static void assessment(String at, ArrayNode columns) {
    add(columns, at + "_month", "string", "effective.ofType(dateTime).toString().substring(0, 7)");
    add(columns, at + "_overjet", "decimal", decimal("overjet"));
    add(columns, at + "_overbite", "decimal", decimal("overbite"));
    for (String part : List.of("ua", "la", "br", "bl", "oj", "ob", "cl")) {
      add(columns, at + "_par_" + part, "integer", whole("par-" + PAR.get(part)));
    }
    add(columns, at + "_dhc", "code", coded("dhc"));
    for (String part : List.of("ae", "cs", "cb", "v", "br", "bl")) {
      add(columns, at + "_icon_" + part, "integer", whole("icon-" + ICON.get(part)));
    }
    add(columns, at + "_aesthetic", "integer", whole("aesthetic"));
  }

  /** The first phase, in the order of a course, that was scored twice. */
  private void twice() {
    StringBuilder path = new StringBuilder();
    for (Phase phase : Phase.values()) {
      String one =
          observation(
              "assessment",
              " and value.ofType(CodeableConcept).coding.exists(code = '" + phase.code() + "')");
      path.append(path.isEmpty() ? one : ".combine(" + one + ")");
    }
    String again =
        ".where(component.exists(code.coding.exists(system = %items and"
            + " code.startsWith('par-again-'))))";
    ArrayNode columns =
        select.addObject().put("forEachOrNull", path + again + ".first()").putArray("column");
    add(columns, "second_par_uk_first", "integer", weighted("par-"));
    add(columns, "second_par_uk_again", "integer", weighted("par-again-"));
    add(columns, "second_phase", "code", "value.ofType(CodeableConcept).coding.code.first()");
  }

  private static String weighted(String prefix) {
    return List.of("ua", "la", "br", "bl", "oj", "ob", "cl").stream()
        .map(part -> WEIGHTS.get(part) + " * " + whole(prefix + PAR.get(part)))
        .collect(Collectors.joining(" + "));
  }

  private static String component(String item) {
    return "component.where(code.coding.exists(system = %items and code = '" + item + "')).value";
  }

  /** The code, or that nobody knows it. */
  private static String told(String item) {
    String part = component(item).replaceFirst("\\.value$", "");
    return part
        + ".select(value.ofType(CodeableConcept).combine(dataAbsentReason)).coding.code.first()";
  }

  private static String coded(String item) {
    return component(item) + ".ofType(CodeableConcept).coding.code.first()";
  }

  private static String whole(String item) {
    return component(item) + ".ofType(integer)";
  }

  private static String decimal(String item) {
    return component(item) + ".ofType(Quantity).value";
  }

  private static void add(ArrayNode columns, String name, String type, String path) {
    String meaning =
        CaseExport.columns().stream()
            .filter(column -> column.name().equals(name))
            .map(CaseColumns.Column::meaning)
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no column is called " + name));
    columns
        .addObject()
        .put("name", name)
        .put("path", path)
        .put("description", meaning)
        .put("type", type);
  }
}
