package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceSearchParamComponent;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.SearchParameter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Walks the CapabilityStatement the service gives and calls everything it claims, in each format it
 * claims; and calls what it does not claim, which must be refused in FHIR's way.
 */
class FhirStatementTest extends FhirService {

  @ParameterizedTest
  @ValueSource(strings = {"application/fhir+json", "application/fhir+xml"})
  void everythingClaimedIsDone(String format) throws Exception {
    CapabilityStatement statement =
        read(get("/metadata", "Accept", format), CapabilityStatement.class);
    assertThat(statement.getFormat()).extracting(Object::toString).contains(format);
    assertThat(statement.getImplementation().getUrl()).isEqualTo(base());
    CapabilityStatementRestComponent rest = statement.getRestFirstRep();
    assertThat(rest.getInteraction())
        .extracting(one -> one.getCode().toCode())
        .containsExactlyInAnyOrder("history-system", "transaction");
    Bundle all = bundle(get("/_history?_count=3", "Accept", format));
    assertThat(all.getType()).isEqualTo(BundleType.HISTORY);
    assertThat(all.getEntry()).hasSize(3);
    Bundle older = bundle(get(all.getLink("next").getUrl(), "Accept", format));
    assertThat(older.getEntryFirstRep().getFullUrl())
        .isNotEqualTo(all.getEntry().get(2).getFullUrl());
    HttpResponse<String> taken = post("", format, treatment(format), "Accept", format);
    assertThat(bundle(taken).getType()).isEqualTo(BundleType.TRANSACTIONRESPONSE);
    for (CapabilityStatementRestResourceComponent resource : rest.getResource()) {
      claimed(resource, format);
    }
    assertThat(rest.getOperation())
        .extracting(one -> one.getName())
        .containsExactly("validate", "export");
    exported("/$export", format);
  }

  private void claimed(CapabilityStatementRestResourceComponent claim, String format)
      throws Exception {
    String type = claim.getType();
    Set<String> interactions =
        claim.getInteraction().stream()
            .map(one -> one.getCode().toCode())
            .collect(Collectors.toSet());
    assertThat(interactions)
        .as(type)
        .isEqualTo(
            type.equals("AuditEvent")
                ? Set.of("read", "search-type")
                : Set.of("read", "vread", "history-instance", "history-type", "search-type"));
    Bundle found = bundle(get("/" + type + "?_count=1", "Accept", format));
    assertThat(found.getType()).isEqualTo(BundleType.SEARCHSET);
    HttpResponse<String> judged =
        post("/" + type + "/$validate", format, text(empty(type), format), "Accept", format);
    assertThat(judged.statusCode()).as(type).isEqualTo(200);
    assertThat(type(judged)).startsWith(format);
    assertThat(read(judged, OperationOutcome.class).getIssue()).isNotEmpty();
    assertThat(found.getTotal()).as(type).isPositive();
    Resource one = found.getEntryFirstRep().getResource();
    String id = one.getIdElement().getIdPart();
    HttpResponse<String> read = get("/" + type + "/" + id, "Accept", format);
    assertThat(type(read)).startsWith(format);
    assertThat(text(read(read, Resource.class), "json")).as(type).isEqualTo(text(one, "json"));
    assertThat(get("/" + type + "/" + id, "If-None-Match", header(read, "ETag")).statusCode())
        .isEqualTo(304);
    if (interactions.contains("vread")) {
      versions(type, id, format);
    }
    for (CapabilityStatementRestResourceSearchParamComponent param : claim.getSearchParam()) {
      String value = SearchValues.value(param.getName(), one);
      String query = "/" + type + "?" + param.getName() + "=" + value;
      Bundle byIt =
          bundle(get(query + "&_count=200", "Accept", format, "Prefer", "handling=strict"));
      if (value.equals(SearchValues.NOWHERE)) {
        assertThat(byIt.getEntry()).as(query).noneMatch(entry -> entry.getResource().equals(one));
      } else {
        assertThat(byIt.getEntry())
            .as(query)
            .anyMatch(entry -> entry.getResource().getIdElement().getIdPart().equals(id));
      }
    }
    if (type.equals("Patient")) {
      assertThat(claim.getOperation())
          .extracting(operation -> operation.getName())
          .containsExactly("validate", "treatment-summary", "export");
      exported("/Patient/$export", format);
      summary(get("/Patient/" + id + "/$treatment-summary", "Accept", format));
      String parameters = text(new org.hl7.fhir.r4.model.Parameters(), format);
      summary(post("/Patient/" + id + "/$treatment-summary", format, parameters, "Accept", format));
    }
  }

  private void versions(String type, String id, String format) throws Exception {
    Bundle history = bundle(get("/" + type + "/_history?_count=5", "Accept", format));
    assertThat(history.getType()).isEqualTo(BundleType.HISTORY);
    HttpResponse<String> version = get("/" + type + "/" + id + "/_history/1", "Accept", format);
    assertThat(version.statusCode()).as(version.body()).isEqualTo(200);
    assertThat(bundle(get("/" + type + "/" + id + "/_history", "Accept", format)).getEntry())
        .isNotEmpty();
  }

  private void exported(String path, String format) throws Exception {
    HttpResponse<String> begun = get(path, "Accept", format, "Prefer", "respond-async");
    assertThat(begun.statusCode()).as(begun.body()).isEqualTo(202);
    String place = header(begun, "Content-Location");
    HttpResponse<String> status = get(place, "Accept", format);
    while (status.statusCode() == 202) {
      Thread.sleep(200);
      status = get(place, "Accept", format);
    }
    assertThat(status.statusCode()).as(status.body()).isEqualTo(200);
    assertThat(status.body()).contains("\"requiresAccessToken\":false", "Patient.ndjson");
    HttpResponse<String> file = get(place + "/Patient.ndjson", "Accept", "application/fhir+ndjson");
    assertThat(type(file)).isEqualTo("application/fhir+ndjson");
    assertThat(file.body().lines())
        .isNotEmpty()
        .allMatch(line -> FHIR.newJsonParser().parseResource(line).fhirType().equals("Patient"));
    assertThat(ask("DELETE", place, "Accept", format).statusCode()).isEqualTo(202);
    fault(get(place, "Accept", format), 404);
  }

  private static void summary(HttpResponse<String> answer) {
    Bundle document = bundle(answer);
    assertThat(document.getType()).isEqualTo(BundleType.DOCUMENT);
    Composition composition = (Composition) document.getEntryFirstRep().getResource();
    assertThat(composition.getSection())
        .isNotEmpty()
        .allMatch(section -> section.getText().getDiv().allText().length() > 3);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "GET /Binary/1 404",
        "GET /Medication 404",
        "GET /Nonsense 404",
        "GET /patient 404",
        "GET /Patient/nobody 404",
        "GET /AuditEvent/nobody 404",
        "GET /AuditEvent/_history 404",
        "GET /AuditEvent/1/_history/1 404",
        "POST /AuditEvent 405",
        "DELETE /AuditEvent/1 405",
        "GET /Patient/nobody/_history 404",
        "GET /Patient/a_b 404",
        "GET /Patient/nobody/$everything 404",
        "GET /Patient/nobody/$treatment-summary 404",
        "GET /$export 400",
        "GET /Patient/$export 400",
        "GET /Observation/$export 404",
        "GET /$export/nothing 404",
        "DELETE /$export/nothing 404",
        "POST /$export 405",
        "GET /$export/nothing/Patient.ndjson 404",
        "GET /Patient/1/2/3/4 404",
        "GET / 405",
        "GET /$validate 405",
        "GET /Patient/$validate 405",
        "PUT /Patient/1 405",
        "PATCH /Patient/1 405",
        "DELETE /Patient/1 405",
        "POST /Patient 405",
        "DELETE / 405",
        "POST /metadata 405",
        "GET //Patient 400",
        "GET /Patient;a=b 400"
      })
  void whatIsNotClaimedIsRefused(String words) throws Exception {
    String[] parts = words.split(" ");
    String body = "{\"resourceType\": \"Patient\"}";
    HttpResponse<String> answer =
        parts[0].equals("GET")
            ? get(parts[1])
            : send(parts[0], parts[1], "application/fhir+json", body);
    fault(answer, Integer.parseInt(parts[2]));
    if (parts[2].equals("405")) {
      assertThat(header(answer, "Allow")).isNotBlank();
    }
  }

  /** Every type has those that begin with a low line. */
  @Test
  void aSearchThatR4DoesNotKnowIsDefinedInTheProfiles() throws Exception {
    List<String> ours = new ArrayList<>();
    CapabilityStatement live = read(get("/metadata"), CapabilityStatement.class);
    for (CapabilityStatementRestResourceComponent resource : live.getRestFirstRep().getResource()) {
      for (CapabilityStatementRestResourceSearchParamComponent param : resource.getSearchParam()) {
        String type = resource.getType();
        String name = param.getName();
        boolean known =
            name.startsWith("_") || FHIR.getResourceDefinition(type).getSearchParam(name) != null;
        assertThat(param.hasDefinition()).as(type + " " + name).isEqualTo(!known);
        if (!known) {
          String url = param.getDefinition();
          String id = url.substring(url.lastIndexOf('/') + 1);
          SearchParameter defined =
              (SearchParameter)
                  FHIR.newJsonParser()
                      .parseResource(
                          Files.readString(Path.of("profiles/SearchParameter-" + id + ".json")));
          assertThat(defined.getUrl()).isEqualTo(url);
          assertThat(defined.getCode()).isEqualTo(name);
          assertThat(defined.getType().toCode()).isEqualTo(param.getType().toCode());
          assertThat(defined.getBase()).extracting(one -> one.getValue()).containsExactly(type);
          ours.add(id);
        }
      }
    }
    try (Stream<Path> files = Files.list(Path.of("profiles"))) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .filteredOn(name -> name.startsWith("SearchParameter-"))
          .containsExactlyInAnyOrderElementsOf(
              ours.stream().map(id -> "SearchParameter-" + id + ".json").toList());
    }
  }

  @Test
  void itIsWhatTheProfilesPublish() throws Exception {
    Path file = Path.of("profiles", "CapabilityStatement-service.json");
    assertThat(Files.readString(file).strip())
        .as("java -cp ... " + PublishedStatement.class.getName() + " prints it")
        .isEqualTo(PublishedStatement.text().strip());
    CapabilityStatement published =
        (CapabilityStatement) FHIR.newJsonParser().parseResource(Files.readString(file));
    CapabilityStatement live = read(get("/metadata"), CapabilityStatement.class);
    assertThat(live.getInstantiates())
        .extracting(canonical -> canonical.getValue())
        .containsExactly(published.getUrl());
    assertThat(live.getRestFirstRep().equalsDeep(published.getRestFirstRep())).isTrue();
  }

  @Test
  void theStatementItselfIsValid() throws Exception {
    HttpResponse<String> judged =
        post("/$validate", "application/fhir+json", get("/metadata").body());
    assertThat(read(judged, OperationOutcome.class).getIssue())
        .extracting(issue -> issue.getSeverity().toCode())
        .doesNotContain("error", "fatal");
  }

  static String treatment(String format) throws Exception {
    String bundle = Files.readString(Path.of("sample-bundles", "overjet-11-staged.bundle.json"));
    return format.contains("xml")
        ? text((Resource) FHIR.newJsonParser().parseResource(bundle), format)
        : bundle;
  }

  private static Resource empty(String type) throws Exception {
    return (Resource) FHIR.getResourceDefinition(type).newInstance();
  }

  private static String text(Resource resource, String format) {
    return (format.contains("xml") ? FHIR.newXmlParser() : FHIR.newJsonParser())
        .encodeResourceToString(resource);
  }
}
