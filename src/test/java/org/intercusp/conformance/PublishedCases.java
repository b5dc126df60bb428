package org.intercusp.conformance;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tools.jackson.core.json.JsonReadFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The cases published for FHIR validators (org.hl7.fhir.testcases:fhir-test-cases, folder {@code
 * validator}) that we take: R4, of a resource type we write or read, to be judged by base R4 with
 * neither a terminology server nor further packages, profiles or settings.
 */
final class PublishedCases {

  private static final String FOLDER = "/org/hl7/fhir/testcases/validator/";

  private static final Set<String> TYPES =
      Set.of(
          ("AdverseEvent AllergyIntolerance Appointment Bundle CarePlan CareTeam Composition"
                  + " Condition Consent DetectedIssue Device DeviceRequest DeviceUseStatement"
                  + " DocumentReference Encounter Goal Observation OperationOutcome Organization"
                  + " Patient Practitioner PractitionerRole Procedure Provenance ServiceRequest Task")
              .split(" "));

  /** What a case may carry beside its document without our having to be told it. */
  private static final Set<String> MEMBERS =
      Set.of(
          "name",
          "file",
          "java",
          "module",
          "version",
          "description",
          "explanation",
          "profile",
          "documentation",
          "tags",
          "comment",
          "brianpos",
          "dotnet-brianpos",
          "firely-sdk-wip",
          "firely-sdk-current",
          "errorCount",
          "no-tx",
          "tx-dependent");

  /** Not documents of plain FHIR R4 JSON or XML, or signatures and services of their own. */
  private static final Set<String> OTHER_MODULES =
      Set.of("cdshooks", "shc", "dsig", "cda", "json5", "logical", "api", "scoring");

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(JsonReadFeature.ALLOW_JAVA_COMMENTS).build();

  private static final Pattern JSON_TYPE = Pattern.compile("\"resourceType\"\\s*:\\s*\"(\\w+)\"");
  private static final Pattern XML_TYPE = Pattern.compile("<([A-Z]\\w+)[\\s>]");

  /**
   * One case.
   *
   * @param refused whether the reference validator finds an error in it
   */
  @SuppressWarnings("ArrayRecordComponent") // compared with nothing
  record Case(String name, byte[] document, Format format, boolean refused) {}

  private PublishedCases() {}

  static List<Case> all() {
    List<Case> cases = new ArrayList<>();
    for (JsonNode one : JSON.readTree(bytes("manifest.json")).get("test-cases")) {
      String outcome = one.path("java").asString("");
      boolean plain =
          outcome.startsWith("java/R4.")
              && MEMBERS.containsAll(one.propertyNames())
              && !OTHER_MODULES.contains(one.path("module").asString(""));
      String file = one.get("file").asString();
      if (plain && PublishedCases.class.getResource(FOLDER + file) != null) {
        Format format = file.endsWith(".xml") ? Format.XML : Format.JSON;
        byte[] document = bytes(file);
        if (TYPES.contains(type(document, format))) {
          cases.add(new Case(one.get("name").asString(), document, format, refused(outcome)));
        }
      }
    }
    return cases;
  }

  private static boolean refused(String outcome) {
    for (JsonNode issue : JSON.readTree(bytes("outcomes/" + outcome)).path("issue")) {
      if (Set.of("error", "fatal").contains(issue.path("severity").asString(""))) {
        return true;
      }
    }
    return false;
  }

  private static String type(byte[] document, Format format) {
    String text = new String(document, java.nio.charset.StandardCharsets.UTF_8);
    Matcher matcher = (format == Format.JSON ? JSON_TYPE : XML_TYPE).matcher(text);
    return matcher.find() ? matcher.group(1) : "";
  }

  private static byte[] bytes(String name) {
    try (InputStream in = PublishedCases.class.getResourceAsStream(FOLDER + name)) {
      return Objects.requireNonNull(in, name).readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
