package org.intercusp.fhir.search;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.AllergyIntolerance;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Enumerations.SearchParamType;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Profile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** What of a resource R4's search parameters find (FHIR R4, 3.1.1.4.5 and 3.1.1.4.10). */
class SearchTermsTest {

  private final SearchTerms terms = new SearchTerms(FhirContext.forR4Cached());

  @Test
  void everyCodingIsFoundAndPlainTextIsNot() {
    Observation seen = new Observation().setStatus(Observation.ObservationStatus.FINAL);
    seen.getCode().setText("Overjet").addCoding().setSystem("http://loinc.org").setCode("32916-9");
    seen.getCode().addCoding().setCode("overjet");
    seen.addComponent().getCode().addCoding().setSystem("urn:x").setCode("part");
    seen.setEffective(new DateTimeType("2026-06-08"));
    assertThat(terms.of(seen))
        .containsExactlyInAnyOrder(
            new Term.Coded(SearchedBy.CODE, "http://loinc.org", "32916-9"),
            new Term.Coded(SearchedBy.CODE, "", "overjet"),
            new Term.Coded(SearchedBy.COMPONENT_CODE, "urn:x", "part"),
            new Term.Coded(SearchedBy.STATUS, "http://hl7.org/fhir/observation-status", "final"),
            day(SearchedBy.DATE, "2026-06-08T00:00:00Z", "2026-06-09T00:00:00Z"));
  }

  @Test
  void aCodeOfAListIsOneEach() {
    AllergyIntolerance allergy = new AllergyIntolerance();
    allergy.addCategory(AllergyIntolerance.AllergyIntoleranceCategory.MEDICATION);
    allergy.addCategory(AllergyIntolerance.AllergyIntoleranceCategory.ENVIRONMENT);
    allergy.addCategory(AllergyIntolerance.AllergyIntoleranceCategory.MEDICATION);
    assertThat(terms.of(allergy))
        .extracting(term -> ((Term.Coded) term).code())
        .containsExactly("medication", "environment");
  }

  @Test
  void periodsGoOnUntilTheyEnd() {
    CarePlan plan = new CarePlan();
    plan.setPeriod(new Period().setStartElement(new DateTimeType("2026-01")));
    assertThat(terms.of(plan))
        .containsExactly(
            new Term.Timed(SearchedBy.DATE, Instant.parse("2026-01-01T00:00:00Z"), null));
    Encounter visit = new Encounter();
    visit.setPeriod(new Period().setEndElement(new DateTimeType("2026")));
    assertThat(terms.of(visit))
        .containsExactly(
            new Term.Timed(SearchedBy.DATE, null, Instant.parse("2027-01-01T00:00:00Z")));
    visit.setPeriod(new Period());
    assertThat(terms.of(visit)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "2026,                          2026-01-01T00:00:00Z,     2027-01-01T00:00:00Z",
    "2026-02,                       2026-02-01T00:00:00Z,     2026-03-01T00:00:00Z",
    "2024-02-29,                    2024-02-29T00:00:00Z,     2024-03-01T00:00:00Z",
    "2026-03-01T08:30:15+02:00,     2026-03-01T06:30:15Z,     2026-03-01T06:30:16Z",
    "2026-03-01T08:30:15.250Z,      2026-03-01T08:30:15.250Z, 2026-03-01T08:30:15.251Z"
  })
  void aTimeIsASpan(String time, Instant begins, Instant ends) {
    TimeZone before = TimeZone.getDefault();
    try {
      for (String zone : List.of("UTC", "Pacific/Auckland", "America/Los_Angeles")) {
        TimeZone.setDefault(TimeZone.getTimeZone(zone));
        assertThat(Spans.of(new DateTimeType(time))).contains(new Spans.Span(begins, ends));
      }
    } finally {
      TimeZone.setDefault(before);
    }
  }

  @Test
  void daysAndInstantsAreTimesToo() {
    Patient patient = new Patient();
    patient.setBirthDateElement(new DateType("2013-05-04"));
    assertThat(terms.of(patient))
        .containsExactly(day(SearchedBy.BIRTHDATE, "2013-05-04T00:00:00Z", "2013-05-05T00:00:00Z"));
    assertThat(Spans.of(new InstantType("2026-03-01T08:30:15Z")))
        .contains(
            new Spans.Span(
                Instant.parse("2026-03-01T08:30:15Z"), Instant.parse("2026-03-01T08:30:16Z")));
    assertThat(Spans.of(new DateTimeType())).isEmpty();
  }

  @Test
  void whatIsNoCodeIsNotFound() {
    Observation seen = new Observation();
    seen.getCode().addCoding().setSystem("urn:x").setCode("x".repeat(201));
    seen.getCode().addCoding().setSystem("urn:" + "x".repeat(397)).setCode("x");
    seen.getCode().addCoding().setSystem("urn:x");
    seen.getCode().addCoding().setSystem("urn:x").setCode("two\nlines");
    seen.getCode().addCoding().setSystem("urn: x").setCode("x");
    seen.getCode().addCoding().setSystem("urn:" + "x".repeat(396)).setCode("y".repeat(200));
    assertThat(terms.of(seen)).hasSize(1);
  }

  /** A parameter that no type had, or a type that could not be evaluated, would be a mistake. */
  @Test
  void eachIsR4sOwnForSomeType() {
    for (SearchedBy by : SearchedBy.values()) {
      assertThat(by.code()).isEqualTo(by.name().toLowerCase(Locale.ROOT).replace('_', '-'));
    }
    assertThat(SearchedBy.of("Observation"))
        .containsExactly(
            SearchedBy.CODE,
            SearchedBy.COMPONENT_CODE,
            SearchedBy.CATEGORY,
            SearchedBy.STATUS,
            SearchedBy.DATE);
    assertThat(SearchedBy.of("Goal")).contains(SearchedBy.TARGET_DATE, SearchedBy.LIFECYCLE_STATUS);
    assertThat(SearchedBy.of("AdverseEvent"))
        .contains(SearchedBy.EVENT)
        .doesNotContain(SearchedBy.CODE);
    for (Profile profile : Profile.values()) {
      assertThat(SearchedBy.of(profile.type()))
          .as("a version has room for one time: " + profile)
          .filteredOn(by -> by.type() == SearchParamType.DATE)
          .hasSizeLessThan(2);
    }
    for (Resource empty : List.of(new Observation(), new CarePlan(), new Patient())) {
      assertThat(terms.of(empty)).isEmpty();
    }
  }

  /** A version has room for one time, so what we say must not have several. */
  @ParameterizedTest
  @MethodSource("samples")
  void whatWeSayHasOneTimeAtMost(Path sample) throws IOException {
    Bundle bundle =
        FhirContext.forR4Cached()
            .newJsonParser()
            .parseResource(Bundle.class, Files.readString(sample));
    assertThat(bundle.getEntry()).isNotEmpty();
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      assertThat(terms.of(entry.getResource()))
          .as(entry.getFullUrl())
          .filteredOn(Term.Timed.class::isInstance)
          .hasSizeLessThan(2);
    }
  }

  static List<Path> samples() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("sample-bundles"))) {
      return files.filter(file -> file.toString().endsWith(".bundle.json")).sorted().toList();
    }
  }

  private static Term day(SearchedBy by, String begins, String ends) {
    return new Term.Timed(by, Instant.parse(begins), Instant.parse(ends));
  }
}
