package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.List;
import java.util.function.Predicate;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.web.Knock;
import org.junit.jupiter.api.Test;

/** Searches by hand: what they find, what of it they show, and what they do not know. */
class FhirSearchTest extends FhirService {

  private static final String PATIENTS = "https://harbour-lane.example/patients";

  @Test
  void partsOfResourcesAreSaidToBeParts() throws Exception {
    Bundle counted = bundle(get("/Observation?_summary=count"));
    assertThat(counted.getTotal()).isPositive();
    assertThat(counted.getEntry()).isEmpty();
    Observation chosen =
        (Observation)
            bundle(get("/Observation?_elements=code&_count=1")).getEntryFirstRep().getResource();
    assertThat(chosen.hasCode()).isTrue();
    assertThat(chosen.hasStatus()).as("mandatory").isTrue();
    assertThat(chosen.hasSubject()).isFalse();
    assertThat(chosen.getIdElement().getIdPart()).isNotBlank();
    assertThat(chosen.getMeta().getTag()).anyMatch(tag -> tag.getCode().equals("SUBSETTED"));
    Observation summary =
        (Observation)
            bundle(get("/Observation?_summary=true&_count=1")).getEntryFirstRep().getResource();
    assertThat(summary.hasPerformer()).isTrue();
    assertThat(summary.hasCategory()).isFalse();
    fault(get("/Observation?_summary=some"), 400);
  }

  @Test
  void parametersAreFollowedOrNamed() throws Exception {
    Bundle lenient = bundle(get("/Observation?_count=2&method=x"));
    assertThat(lenient.getLink("self").getUrl()).endsWith("/fhir/Observation?_count=2");
    OperationOutcome named = (OperationOutcome) lenient.getEntry().get(2).getResource();
    assertThat(named.getIssueFirstRep().getDetails().getText()).contains("method");
    assertThat(lenient.getEntry().get(2).getSearch().getMode().toCode()).isEqualTo("outcome");
    fault(get("/Observation?method=x", "Prefer", "handling=strict"), 400);
    fault(get("/metadata?code=x", "Prefer", "handling=strict"), 400);
    assertThat(get("/metadata?mode=full", "Prefer", "handling=strict").statusCode()).isEqualTo(200);
    fault(get("/Observation?identifier:not=x"), 400);
    fault(get("/Observation?patient.name=x"), 400);
    fault(get("/Observation?_lastUpdated=yesterday"), 400);
    fault(get("/Observation?_count=-1"), 400);
    fault(get("/Observation?_page=AAAA"), 400);
    assertThat(bundle(get("/Observation?_count=0")).getEntry()).isEmpty();
  }

  /** A client that asks for a format in the query asks for no header when it follows a link. */
  @Test
  void theNextPageIsWrittenAsTheFirstWas() throws Exception {
    for (String list : List.of("/Observation", "/_history")) {
      HttpResponse<String> first = get(list + "?_count=1&_format=xml&_pretty=true");
      Bundle page = bundle(first);
      assertThat(page.getLink("self").getUrl()).contains("_format=xml", "_pretty=true");
      HttpResponse<String> second = get(page.getLink("next").getUrl());
      assertThat(type(second)).isEqualTo(type(first)).contains("xml");
      assertThat(second.body()).contains("\n");
    }
    String next =
        bundle(get("/Observation?_count=1&_format=json", "Accept", "application/fhir+xml"))
            .getLink("next")
            .getUrl();
    assertThat(type(get(next, "Accept", "application/fhir+xml"))).contains("json");
  }

  @Test
  void searchesFindWhatTheySay() throws Exception {
    List<Resource> patients = all("/Patient?_count=200");
    Resource one = patients.get(0);
    String id = one.getIdElement().getIdPart();
    assertThat(all("/Patient?_id=" + id + ",nobody")).hasSize(1);
    assertThat(all("/Patient?_id=nobody")).isEmpty();
    assertThat(all("/Patient?identifier=" + PATIENTS + "%7C")).hasSameSizeAs(patients);
    assertThat(all("/Patient?identifier=P-10217")).hasSize(1);
    assertThat(all("/Patient?identifier=https://other.example%7CP-10217")).isEmpty();
    assertThat(all("/Observation?patient=Patient/nobody")).isEmpty();
    int mine = all("/Observation?patient=Patient/" + id + "&_count=200").size();
    assertThat(all("/Observation?patient=" + base() + "/Patient/" + id + "&_count=200"))
        .hasSize(mine);
    assertThat(all("/Observation?_lastUpdated=lt2020")).isEmpty();
    int sum = all("/Observation?_lastUpdated=ge2020-01-01&_lastUpdated=lt2999&_count=200").size();
    assertThat(sum).isEqualTo(bundle(get("/Observation?_summary=count")).getTotal());
    HttpResponse<String> posted =
        post("/Patient/_search", "application/x-www-form-urlencoded", "identifier=P-10217");
    assertThat(bundle(posted).getTotal()).isEqualTo(1);
  }

  @Test
  void codesAndTimesFindWhatTheySay() throws Exception {
    List<Resource> seen = all("/Observation?_count=200");
    String overjet = "http://loinc.org%7C32916-9";
    List<String> overjets = which(seen, one -> codes(one.getCode()).contains("32916-9"));
    assertThat(overjets).isNotEmpty().hasSizeLessThan(seen.size());
    assertThat(found("/Observation?code=" + overjet)).isEqualTo(overjets);
    assertThat(found("/Observation?code=32916-9")).isEqualTo(overjets);
    assertThat(found("/Observation?code=%7C32916-9")).as("of no system").isEmpty();
    assertThat(found("/Observation?code:not=" + overjet))
        .isEqualTo(which(seen, one -> !codes(one.getCode()).contains("32916-9")));
    assertThat(found("/Observation?code=" + overjet + ",http://loinc.org%7C32917-7"))
        .isEqualTo(
            which(
                seen,
                one ->
                    codes(one.getCode()).contains("32916-9")
                        || codes(one.getCode()).contains("32917-7")));
    String patient =
        ((Observation) seen.get(0)).getSubject().getReferenceElement().toUnqualified().getValue();
    List<String> theirs = which(seen, one -> one.getSubject().getReference().endsWith(patient));
    assertThat(found("/Observation?subject=" + patient)).isEqualTo(theirs);
    assertThat(found("/Observation?subject:Patient=" + patient)).isEqualTo(theirs);
    List<String> since =
        which(
            seen,
            one ->
                one.getSubject().getReference().endsWith(patient)
                    && codes(one.getCode()).contains("32916-9")
                    && one.getEffectiveDateTimeType().getValueAsString().compareTo("2026-02-01")
                        >= 0);
    assertThat(since).isNotEmpty().hasSizeLessThan(overjets.size());
    String both = "/Observation?patient=" + patient + "&code=" + overjet;
    assertThat(found(both + "&date=ge2026-02-01")).isEqualTo(since);
    assertThat(found(both + "&date=ge2026-02-01&date=lt2026-02-01")).isEmpty();
    for (String same : List.of("gt sa", "lt eb")) {
      String way = both + "&date=";
      String day = "2026-02-01";
      assertThat(found(way + same.substring(0, 2) + day))
          .as("of days: " + same)
          .isEqualTo(found(way + same.substring(3) + day))
          .isNotEmpty();
    }
    assertThat(found(both + "&date=gt2026-02-01")).isNotEqualTo(found(both + "&date=lt2026-02-01"));
    assertThat(found(both + "&date=ap2026-02-01")).as("years are near").isNotEmpty();
    assertThat(found(both + "&date=ap1900-01-01")).as("a tenth of the time since").isEmpty();
    for (String status : List.of("final", "entered-in-error")) {
      assertThat(found("/Observation?status=" + status))
          .as("others withdraw things here too")
          .isEqualTo(which(seen, one -> one.getStatus().toCode().equals(status)));
      assertThat(found("/Observation?_count=200&status:not=" + status))
          .isEqualTo(which(seen, one -> !one.getStatus().toCode().equals(status)));
    }
    assertThat(all("/AdverseEvent?subject.identifier=P-10482")).isNotEmpty();
    assertThat(bundle(get(both + "&_count=1")).getLink("next").getUrl())
        .as("the next page is asked for by the same")
        .contains("code=http")
        .contains("patient=Patient");
  }

  @Test
  void whatNoCodeOrTimeIsIsRefused() throws Exception {
    fault(get("/Observation?date=yesterday"), 400);
    fault(get("/Observation?date=2026-13"), 400);
    fault(get("/Observation?date:not=2026-01-01"), 400);
    fault(get("/Observation?code:text=overjet"), 400);
    fault(get("/Observation?code:in=http://x.example/vs"), 400);
    fault(get("/Observation?code=%7C"), 400);
    fault(get("/Observation?code="), 400);
    fault(get("/Observation?subject:Group=x"), 400);
    fault(get("/Patient?code=x", "Prefer", "handling=strict"), 400);
  }

  private static List<String> codes(CodeableConcept concept) {
    return concept.getCoding().stream().map(Coding::getCode).toList();
  }

  private static List<String> which(List<Resource> all, Predicate<Observation> wanted) {
    return all.stream()
        .map(Observation.class::cast)
        .filter(wanted)
        .map(FhirService::bare)
        .sorted()
        .toList();
  }

  private List<String> found(String path) throws Exception {
    List<Resource> found = all(path);
    assertThat(found).noneMatch(OperationOutcome.class::isInstance);
    return found.stream().map(FhirService::bare).sorted().toList();
  }

  @Test
  void aBarNeedNotBeEncoded() throws Exception {
    String asked = "/fhir/Patient?identifier=" + PATIENTS + "|P-10217";
    Knock.Reply reply = Knock.at(port, "GET", asked).reply();
    assertThat(reply.status()).as(reply.body()).isEqualTo(200);
    Bundle found = FHIR.newJsonParser().parseResource(Bundle.class, reply.body());
    assertThat(found.getTotal()).isEqualTo(1);
    assertThat(found.getLink("self").getUrl()).contains("%7CP-10217");
    String clinic = "?clinic=https://harbour-lane.example/nowhere|x";
    assertThat(Knock.at(port, "GET", "/treatments/HL-2026-801" + clinic).reply().status())
        .isEqualTo(404);
  }
}
