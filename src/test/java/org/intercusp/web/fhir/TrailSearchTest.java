package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.zip.GZIPInputStream;
import org.hl7.fhir.r4.model.AuditEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.SearchEntryMode;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** AuditEvents are read and searched as every other type here, and nobody else writes them. */
class TrailSearchTest extends FhirService {

  @ParameterizedTest
  @ValueSource(strings = {"application/fhir+json", "application/fhir+xml"})
  void pagesOfOneMomentHoldEveryRecordOnceTheNewestFirst(String format) throws Exception {
    for (int i = 0; i < 5; i++) {
      assertThat(get("/Patient?_count=1").statusCode()).isEqualTo(200);
    }
    HttpResponse<String> answer = get("/AuditEvent?_count=2", "Accept", format);
    assertThat(type(answer)).startsWith(format);
    Bundle page = bundle(answer);
    assertThat(page.getType()).isEqualTo(BundleType.SEARCHSET);
    assertThat(page.getLink("self").getUrl()).isEqualTo(base() + "/AuditEvent?_count=2");
    int total = page.getTotal();
    assertThat(total).isGreaterThan(5);
    List<AuditEvent> seen = new ArrayList<>();
    while (page.getLink("next") != null) {
      seen.addAll(events(page));
      // Each look is a deed of its own, and none of the moment of the first.
      page = bundle(get(page.getLink("next").getUrl(), "Accept", format));
      assertThat(page.getTotal()).isEqualTo(total);
    }
    seen.addAll(events(page));
    assertThat(seen).extracting(one -> one.getIdElement().getIdPart()).doesNotHaveDuplicates();
    assertThat(seen)
        .hasSize(total)
        .extracting(AuditEvent::getRecorded)
        .isSortedAccordingTo(Comparator.reverseOrder());
  }

  private static List<AuditEvent> events(Bundle page) {
    assertThat(page.getEntry())
        .isNotEmpty()
        .allMatch(entry -> entry.getSearch().getMode() == SearchEntryMode.MATCH)
        .allMatch(entry -> entry.getFullUrl().contains("/fhir/AuditEvent/"));
    return page.getEntry().stream().map(entry -> (AuditEvent) entry.getResource()).toList();
  }

  @Test
  void aRecordIsReadByItsIdAndNotAgainByWhoHasIt() throws Exception {
    AuditEvent newest = events(bundle(get("/AuditEvent?_count=1"))).get(0);
    String path = "/AuditEvent/" + newest.getIdElement().getIdPart();
    HttpResponse<String> answer = get(path, "Accept", "application/fhir+xml");
    assertThat(FHIR.newJsonParser().encodeResourceToString(read(answer, AuditEvent.class)))
        .isEqualTo(FHIR.newJsonParser().encodeResourceToString(newest));
    assertThat(header(answer, "ETag")).isEqualTo("W/\"1\"");
    assertThat(get(path, "If-None-Match", "W/\"1\"").statusCode()).isEqualTo(304);
    assertThat(get(path, "If-Modified-Since", header(answer, "Last-Modified")).statusCode())
        .isEqualTo(304);
    assertThat(get(path + "?_elements=outcome").body())
        .contains("outcome", "SUBSETTED")
        .doesNotContain("X-Request-Id");
  }

  @Test
  void parametersAreFollowedOrNamed() throws Exception {
    Bundle lenient = bundle(get("/AuditEvent?_count=2&colour=red"));
    assertThat(lenient.getLink("self").getUrl()).endsWith("/AuditEvent?_count=2");
    assertThat(lenient.getEntry()).hasSize(3);
    assertThat(lenient.getEntry().get(2).getSearch().getMode()).isEqualTo(SearchEntryMode.OUTCOME);
    assertThat(((OperationOutcome) lenient.getEntry().get(2).getResource()).getIssueFirstRep())
        .satisfies(
            issue -> {
              assertThat(issue.getDetails().getText()).contains("colour", "AuditEvent");
              assertThat(issue.getDetails().getCodingFirstRep().getCode())
                  .isEqualTo("fhir-parameter");
            });
    fault(get("/AuditEvent?colour=red", "Prefer", "handling=strict"), 400);
    Bundle counted = bundle(get("/AuditEvent?_summary=count"));
    assertThat(counted.getTotal()).isPositive();
    assertThat(counted.getEntry()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "/AuditEvent?_count=many, 400, fhir-parameter",
    "/AuditEvent?date=soon, 400, fhir-parameter",
    "/AuditEvent?date:missing=true, 400, fhir-parameter",
    "/AuditEvent?_page=x, 400, fhir-parameter",
    "/AuditEvent/nobody, 404, fhir-not-found",
    "/AuditEvent/_history, 404, fhir-not-here"
  })
  void faultsHaveOurCode(String path, int status, String code) throws Exception {
    assertThat(fault(get(path, "Prefer", "handling=strict"), status).getIssueFirstRep())
        .extracting(issue -> issue.getDetails().getCodingFirstRep().getCode())
        .isEqualTo(code);
  }

  @Test
  void timesAndIdsNarrowIt() throws Exception {
    Instant before = Instant.now();
    HttpResponse<String> asked = get("/Patient?_count=1");
    String request = header(asked, "X-Request-Id");
    Bundle since = bundle(get("/AuditEvent?date=ge" + before + "&_count=200"));
    assertThat(events(since)).anyMatch(event -> hasRequest(event, request));
    Bundle until = bundle(get("/AuditEvent?_lastUpdated=lt" + before + "&_count=200"));
    assertThat(events(until)).noneMatch(event -> hasRequest(event, request));
    String id = events(since).get(0).getIdElement().getIdPart();
    assertThat(events(bundle(get("/AuditEvent?_id=" + id + ",none"))))
        .extracting(event -> event.getIdElement().getIdPart())
        .containsExactly(id);
    HttpResponse<String> posted =
        post("/AuditEvent/_search", "application/x-www-form-urlencoded", "_id=" + id);
    assertThat(bundle(posted).getTotal()).isEqualTo(1);
  }

  private static boolean hasRequest(AuditEvent event, String request) {
    return event.getEntity().stream()
        .anyMatch(one -> request.equals(one.getWhat().getIdentifier().getValue()));
  }

  @ParameterizedTest
  @CsvSource({
    "GET, /Patient/{id}, read, Patient/{id},",
    "GET, /Patient/{id}/_history/1, read, Patient/{id},",
    "GET, /Patient/{id}/_history, history-instance, Patient/{id}, Patient/{id}/_history",
    "GET, /Patient/_history?_count=1, history-type,, Patient/_history?_count=1",
    "GET, /_history?_count=1, history-system,, _history?_count=1",
    "GET, /Patient?identifier=a%7Cb%26c, search-type,, Patient?identifier=a%7Cb%26c",
    "POST, /Patient/_search, search-type,, Patient/_search?identifier=a%7Cb"
  })
  void aRecordNamesWhatWasSeenOrSought(
      String method, String path, String deed, @Nullable String seen, @Nullable String sought)
      throws Exception {
    String id =
        bundle(get("/Patient?_count=1"))
            .getEntryFirstRep()
            .getResource()
            .getIdElement()
            .getIdPart();
    String place = path.replace("{id}", id);
    HttpResponse<String> answer =
        method.equals("GET")
            ? get(place)
            : post(place, "application/x-www-form-urlencoded", "identifier=a%7Cb");
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    List<AuditEvent> found =
        events(bundle(get("/AuditEvent?_count=20"))).stream()
            .filter(one -> hasRequest(one, header(answer, "X-Request-Id")))
            .toList();
    assertThat(found).hasSize(1);
    assertThat(found.get(0).getSubtypeFirstRep().getCode()).isEqualTo(deed);
    AuditEvent.AuditEventEntityComponent entity = found.get(0).getEntityFirstRep();
    assertThat(entity.getWhat().getReference())
        .isEqualTo(seen == null ? null : seen.replace("{id}", id));
    assertThat(entity.getWhat().getIdentifier().getSystem()).isNull();
    assertThat(entity.hasQuery() ? new String(entity.getQuery(), StandardCharsets.UTF_8) : null)
        .isEqualTo(sought == null ? null : sought.replace("{id}", id));
    String judged = FHIR.newJsonParser().encodeResourceToString(found.get(0));
    assertThat(post("/$validate", "application/fhir+json", judged).body())
        .doesNotContain("\"error\"");
  }

  @Test
  void itComesCompressed() throws Exception {
    for (int i = 0; i < 10; i++) {
      get("/Patient?_count=1");
    }
    HttpRequest request =
        HttpRequest.newBuilder(java.net.URI.create(base() + "/AuditEvent?_count=10"))
            .header("Accept-Encoding", "gzip")
            .build();
    HttpResponse<byte[]> answer = HTTP.send(request, BodyHandlers.ofByteArray());
    assertThat(header(answer, "Content-Encoding")).isEqualTo("gzip");
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(answer.body()))) {
      assertThat(new String(in.readAllBytes(), StandardCharsets.UTF_8)).contains("searchset");
    }
  }

  @Test
  void nobodyElseWritesIt() throws Exception {
    String event = "{\"resourceType\": \"AuditEvent\"}";
    OperationOutcome outcome = fault(post("/AuditEvent", "application/fhir+json", event), 405);
    assertThat(outcome.getIssueFirstRep().getDetails().getText()).contains("service itself");
  }
}
