package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.rest.client.api.IGenericClient;
import ca.uhn.fhir.rest.server.exceptions.ResourceNotFoundException;
import java.io.ByteArrayInputStream;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.zip.GZIPInputStream;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.IdType;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;

/**
 * What an integrator does first, with HAPI's generic client (another implementation of the protocol
 * than ours) and by hand.
 */
class FhirReadTest extends FhirService {

  private static final String PATIENTS = "https://harbour-lane.example/patients";

  @Test
  void whatAnIntegratorDoesFirst() {
    IGenericClient client = client();
    CapabilityStatement statement =
        client.capabilities().ofType(CapabilityStatement.class).execute();
    assertThat(statement.getFhirVersion().toCode()).isEqualTo("4.0.1");

    Bundle found =
        client
            .search()
            .forResource(Patient.class)
            .where(Patient.IDENTIFIER.exactly().systemAndIdentifier(PATIENTS, "P-10217"))
            .returnBundle(Bundle.class)
            .execute();
    assertThat(found.getTotal()).isEqualTo(1);
    Patient patient = (Patient) found.getEntryFirstRep().getResource();
    assertThat(patient.getIdentifierFirstRep().getValue()).isEqualTo("P-10217");

    Bundle plans =
        client
            .search()
            .forResource(CarePlan.class)
            .where(CarePlan.PATIENT.hasId(patient.getIdElement()))
            .encodedXml()
            .returnBundle(Bundle.class)
            .execute();
    assertThat(plans.getTotal()).isEqualTo(4);
    CarePlan plan = (CarePlan) plans.getEntryFirstRep().getResource();
    assertThat(plan.getSubject().getReference()).isEqualTo(bare(patient));

    CarePlan same = client.read().resource(CarePlan.class).withUrl(plan.getIdElement()).execute();
    assertThat(same.getMeta().getVersionId()).isEqualTo("1");
    CarePlan version =
        client
            .read()
            .resource(CarePlan.class)
            .withIdAndVersion(plan.getIdElement().getIdPart(), "1")
            .execute();
    assertThat(version.equalsDeep(same)).isTrue();
    Bundle history =
        client
            .history()
            .onInstance(plan.getIdElement().toUnqualifiedVersionless())
            .returnBundle(Bundle.class)
            .execute();
    assertThat(history.getEntry()).hasSize(1);
    assertThatThrownBy(() -> client.read().resource(Patient.class).withId("nobody").execute())
        .isInstanceOf(ResourceNotFoundException.class);
  }

  @Test
  void everyReferenceOfEveryResourceResolves() throws Exception {
    Set<String> known = new HashSet<>();
    Set<String> referred = new HashSet<>();
    for (String type : Offers.types()) {
      for (Resource one : all("/" + type + "?_count=200")) {
        known.add(bare(one));
        assertThat(one.getIdElement().getIdPart()).matches("[0-9a-f-]{36}");
        FHIR.newTerser()
            .getAllPopulatedChildElementsOfType(one, org.hl7.fhir.r4.model.Reference.class)
            .forEach(reference -> referred.add(reference.getReference()));
      }
    }
    referred.removeIf(reference -> reference == null || reference.startsWith("#"));
    assertThat(referred).isNotEmpty().isSubsetOf(known);
  }

  @Test
  void pagesNeitherLoseNorRepeatWhileTreatmentsChange() throws Exception {
    Bundle first = bundle(get("/Observation?_count=60"));
    int total = first.getTotal();
    assertThat(total).isGreaterThan(120);
    String place =
        "/treatments/" + new JsonMapper().readTree(sample("allergy")).path("id").asString();
    String changed =
        sample("allergy").replaceFirst("\"overjetHabitual\": \\d+", "\"overjetHabitual\": 8");
    HttpResponse<String> put =
        send("PUT", place, "application/json", changed, "If-Match", header(get(place), "ETag"));
    assertThat(put.statusCode()).as(put.body()).isEqualTo(200);

    Set<String> seen = new HashSet<>();
    Bundle page = first;
    int entries = 0;
    while (true) {
      entries += page.getEntry().size();
      page.getEntry().forEach(entry -> seen.add(entry.getFullUrl()));
      assertThat(page.getTotal()).isEqualTo(total);
      page.getEntry()
          .forEach(
              entry ->
                  assertThat(entry.getResource().getMeta().getLastUpdated())
                      .isBeforeOrEqualTo(
                          first
                              .getEntryFirstRep()
                              .getResource()
                              .getMeta()
                              .getLastUpdated()
                              .toInstant()
                              .plusSeconds(600)));
      if (page.getLink("next") == null) {
        break;
      }
      page = bundle(get(page.getLink("next").getUrl()));
    }
    assertThat(entries).isEqualTo(total);
    assertThat(seen).hasSize(total);
  }

  @Test
  void aVersionIsOnlyMadeByAChangeAndOldOnesStay() throws Exception {
    String file = sample("mixed-dentition");
    assertThat(post("/treatments", "application/json", file).statusCode()).isIn(201, 409);
    String id = new JsonMapper().readTree(file).path("id").asString();
    Bundle before = bundle(get("/Patient?identifier=" + patientOf(file)));
    IdType patient = before.getEntryFirstRep().getResource().getIdElement();
    String changed =
        file.replaceFirst("\"birthDate\"\\s*:\\s*\"[^\"]+\"", "\"birthDate\": \"2015-05-05\"");
    HttpResponse<String> put =
        send(
            "PUT",
            "/treatments/" + id,
            "application/json",
            changed,
            "If-Match",
            header(get("/treatments/" + id), "ETag"));
    assertThat(put.statusCode()).as(put.body()).isEqualTo(200);
    Patient now = read(get("/Patient/" + patient.getIdPart()), Patient.class);
    assertThat(now.getMeta().getVersionId()).isEqualTo("2");
    assertThat(now.getBirthDateElement().getValueAsString()).isEqualTo("2015-05-05");
    Patient then = read(get("/Patient/" + patient.getIdPart() + "/_history/1"), Patient.class);
    assertThat(then.getBirthDateElement().getValueAsString()).isNotEqualTo("2015-05-05");
    Bundle plans = bundle(get("/CarePlan?patient=" + patient.getIdPart()));
    assertThat(plans.getEntry())
        .isNotEmpty()
        .allMatch(e -> e.getResource().getMeta().getVersionId().equals("1"));
    Bundle history = bundle(get("/Patient/" + patient.getIdPart() + "/_history"));
    assertThat(history.getEntry())
        .extracting(e -> e.getResource().getMeta().getVersionId())
        .containsExactly("2", "1");
  }

  @Test
  void aHistorySaysWhichParametersItLeftAside() throws Exception {
    String place = "/Patient?_count=1";
    String id = bundle(get(place)).getEntryFirstRep().getResource().getIdElement().getIdPart();
    for (String path : new String[] {"/Patient/" + id + "/_history", "/Patient/_history"}) {
      Bundle plain = bundle(get(path + "?_count=1"));
      Bundle lenient = bundle(get(path + "?_count=1&_at=2020&_sort=_id"));
      assertThat(lenient.getTotal()).isEqualTo(plain.getTotal());
      assertThat(lenient.getLink("self").getUrl()).isEqualTo(plain.getLink("self").getUrl());
      assertThat(lenient.getEntry()).hasSize(plain.getEntry().size() + 1);
      Bundle.BundleEntryComponent told = lenient.getEntry().get(plain.getEntry().size());
      assertThat(((OperationOutcome) told.getResource()).getIssue())
          .extracting(issue -> issue.getSeverity().toCode() + " " + issue.getDetails().getText())
          .containsExactly(
              "warning The parameter _at is not one of a history; see /fhir/metadata.",
              "warning The parameter _sort is not one of a history; see /fhir/metadata.");
      assertThat(told.getRequest().getMethod()).isEqualTo(Bundle.HTTPVerb.GET);
      assertThat(told.getResponse().getStatus()).isEqualTo("200 OK");
      fault(get(path + "?_at=2020", "Prefer", "handling=strict"), 400);
      assertThat(
              get(path + "?_count=1&_since=2020-01-01T00:00:00Z", "Prefer", "handling=strict")
                  .statusCode())
          .isEqualTo(200);
    }
  }

  @Test
  void whatWentAwayIsMarkedAsDeliveriesMarkIt() throws Exception {
    String file = sample("reduced-overbite-no-trimming");
    assertThat(post("/treatments", "application/json", file).statusCode()).isIn(201, 409);
    var tree = (tools.jackson.databind.node.ObjectNode) new JsonMapper().readTree(file);
    String id = tree.path("id").asString();
    tools.jackson.databind.node.ArrayNode reviews =
        (tools.jackson.databind.node.ArrayNode) tree.path("reviews");
    assertThat(reviews.size()).isPositive();
    reviews.remove(reviews.size() - 1);
    HttpResponse<String> put =
        send(
            "PUT",
            "/treatments/" + id,
            "application/json",
            tree.toString(),
            "If-Match",
            header(get("/treatments/" + id), "ETag"));
    assertThat(put.statusCode()).as(put.body()).isEqualTo(200);
    Bundle encounters = bundle(get("/Encounter?patient.identifier=" + patientOf(file)));
    assertThat(encounters.getEntry())
        .filteredOn(
            e ->
                ((org.hl7.fhir.r4.model.Encounter) e.getResource())
                    .getStatus()
                    .toCode()
                    .equals("entered-in-error"))
        .singleElement()
        .satisfies(e -> assertThat(e.getResource().getMeta().getVersionId()).isEqualTo("2"));
    Bundle appointments = bundle(get("/Appointment?patient.identifier=" + patientOf(file)));
    assertThat(appointments.getEntry())
        .extracting(e -> ((Appointment) e.getResource()).getStatus().toCode())
        .contains("cancelled");
  }

  @Test
  void whatIsKnownIsNotSentAgain() throws Exception {
    String place = "/" + bare(all("/Patient?_count=1").get(0));
    HttpResponse<String> whole = get(place);
    String tag = header(whole, "ETag");
    assertThat(tag).startsWith("W/\"");
    HttpResponse<String> unchanged = get(place, "If-None-Match", tag);
    assertThat(unchanged.statusCode()).isEqualTo(304);
    // RFC 9110, 15.4.5: what a cache stores is updated by it.
    for (String name : List.of("ETag", "Last-Modified", "Content-Location", "Vary")) {
      assertThat(header(unchanged, name)).isEqualTo(header(get(place), name)).isNotBlank();
    }
    assertThat(get(place, "If-None-Match", tag).body()).isEmpty();
    assertThat(get(place, "If-None-Match", "\"77\"").statusCode()).isEqualTo(200);
    String time = header(whole, "Last-Modified");
    assertThat(get(place, "If-Modified-Since", time).statusCode()).isEqualTo(304);
    assertThat(get(place, "If-Modified-Since", "Thu, 01 Jan 2015 00:00:00 GMT").statusCode())
        .isEqualTo(200);
    assertThat(get(place, "If-None-Match", "\"77\"", "If-Modified-Since", time).statusCode())
        .as("a tag goes before a time (RFC 9110, 13.2.2)")
        .isEqualTo(200);
    for (String tags : List.of("\"77\", " + tag, tag.substring(2), "*")) {
      assertThat(get(place, "If-None-Match", tags).statusCode()).as(tags).isEqualTo(304);
    }
    HttpResponse<String> head = ask("HEAD", place);
    assertThat(head.statusCode()).isEqualTo(200);
    assertThat(head.body()).isEmpty();
    assertThat(header(head, "ETag")).isEqualTo(tag);
  }

  @Test
  void formatsAreAgreedOrRefused() throws Exception {
    String place = "/" + bare(all("/Patient?_count=1").get(0));
    assertThat(type(get(place, "Accept", "application/fhir+xml"))).contains("fhir+xml");
    assertThat(type(get(place, "Accept", "application/fhir+json;q=0.5, application/xml")))
        .contains("fhir+xml");
    assertThat(type(get(place + "?_format=xml", "Accept", "application/fhir+json")))
        .contains("fhir+xml");
    assertThat(type(get(place + "?_format=application/fhir+json"))).contains("fhir+json");
    fault(get(place, "Accept", "application/pdf"), 406);
    fault(get(place + "?_format=turtle"), 406);
    fault(get(place, "Accept", "application/fhir+json; fhirVersion=5.0"), 406);
    assertThat(get(place + "?_pretty=true").body()).contains("\n  ");
    assertThat(get(place).body()).doesNotContain("\n");
    Patient json = read(get(place), Patient.class);
    Patient xml = read(get(place + "?_format=xml"), Patient.class);
    assertThat(xml.equalsDeep(json)).isTrue();
  }

  @Test
  void answersAreGzippedForThoseWhoTakeIt() throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base() + "/Observation"))
            .header("Accept-Encoding", "gzip")
            .build();
    HttpResponse<byte[]> answer = HTTP.send(request, HttpResponse.BodyHandlers.ofByteArray());
    assertThat(header(answer, "Content-Encoding")).isEqualTo("gzip");
    byte[] text = new GZIPInputStream(new ByteArrayInputStream(answer.body())).readAllBytes();
    assertThat(new String(text, StandardCharsets.UTF_8)).contains("searchset");
  }

  private static String patientOf(String file) {
    return new JsonMapper().readTree(file).at("/patient/identifier/value").asString();
  }
}
