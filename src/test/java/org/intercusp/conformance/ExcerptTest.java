package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Canonicals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A resource inside Parameters is judged as it would be alone, in its own text. */
class ExcerptTest {

  private static final String JSON =
      """
      {"resourceType": "Parameters", "parameter": [
        {"name": "mode", "valueCode": "create"},
        {"resource": %s
        , "name": "resource"}]}
      """;

  private static final String XML =
      """
      <?xml version="1.0" encoding="UTF-8"?>
      <!-- from elsewhere -->
      <Parameters xmlns="http://hl7.org/fhir">
        <parameter><name value="mode"/><valueCode value="create"/></parameter>
        <parameter><name value="resource"/><resource>%s
        </resource></parameter></Parameters>
      """;

  @ParameterizedTest
  @ValueSource(strings = {"", "\n", "\n\n  "})
  void whatIsSaidOfABundleInJsonIsSaidInParameters(String before) throws Exception {
    String bundle =
        Files.readString(Path.of("sample-bundles/unsafe-bite-refused.bundle.json"))
            .replaceFirst("\"resourceType\": \"Patient\"", "\"nickname\": \"x\", $0")
            .replaceFirst("\"gender\": \"[a-z]+\"", "\"gender\": \"unheard-of\"");
    assertSaidAlike(bundle, before, Format.JSON);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "\n", "\n\n  "})
  void whatIsSaidOfABundleInXmlIsSaidInParameters(String before) throws Exception {
    Resource bundle =
        (Resource)
            Judges.FHIR
                .newJsonParser()
                .parseResource(
                    Files.readString(Path.of("sample-bundles/unsafe-bite-refused.bundle.json")));
    String one = Judges.FHIR.newXmlParser().encodeResourceToString(bundle);
    String many =
        Judges.FHIR.newXmlParser().setPrettyPrint(true).encodeResourceToString(bundle);
    for (String text : List.of(one, many)) {
      String wrong =
          text.replaceFirst("<gender value=\"[a-z]+\"/>", "<gender value=\"x\"/><nickname/>");
      assertThat(wrong).isNotEqualTo(text);
      assertSaidAlike(wrong, before, Format.XML);
    }
  }

  private static void assertSaidAlike(String alone, String before, Format format) {
    String whole = (format == Format.JSON ? JSON : XML).formatted(before + alone);
    int start = whole.indexOf(before + alone) + before.length();
    Spot begin = Spot.of(whole, start);
    List<Issue> expected = Judges.SHARED.validate(alone.getBytes(UTF_8), format);

    List<Issue> said = Judges.SHARED.validate(excerpt(whole, format), List.of());

    assertThat(Judges.stopping(said)).hasSizeGreaterThan(2);
    assertThat(said.stream().map(ExcerptTest::words))
        .containsExactlyInAnyOrderElementsOf(
            expected.stream().map(issue -> words(moved(issue, begin))).toList());
    Resource sent =
        Definitions.of(Judges.FHIR, Canonicals.RESERVED).general().parsed(whole, format);
    for (Issue issue : said) {
      if (issue.expression() != null) {
        assertThat(Judges.FHIR.newFhirPath().evaluate(sent, issue.expression(), Base.class))
            .as(issue.toString())
            .isNotEmpty();
      }
    }
  }

  /** Where an issue of a document is that begins at another place. */
  private static Issue moved(Issue issue, Spot begin) {
    String expression =
        issue.expression() == null
            ? "Parameters.parameter[1].resource"
            : issue.expression().replaceFirst("^Bundle", "Parameters.parameter[1].resource");
    Integer line = issue.line();
    Integer column = issue.column();
    Spot spot =
        line == null || column == null
            ? null
            : new Spot(
                line + begin.line() - 1, line == 1 ? column + begin.column() - 1 : column);
    return new Issue(
            issue.weight(),
            issue.type(),
            issue.rule(),
            issue.text(),
            expression,
            issue.value(),
            null,
            null)
        .at(spot);
  }

  private static String words(Issue issue) {
    return issue.toString();
  }

  @ParameterizedTest
  @CsvSource({
    "overjet, true",
    "overjet|0.1.0, true",
    "overjet|9.9, false",
    "never-heard-of, false",
    "http://hl7.org/fhir/StructureDefinition/Observation, true",
    "http://example.org/never, false"
  })
  void aProfileThatIsNotHeldIsAnError(String name, boolean held) {
    String url =
        name.startsWith("http")
            ? name
            : "https://intercusp.example/fhir/StructureDefinition/" + name;
    byte[] sent = "{\"resourceType\": \"Observation\", \"status\": \"final\"}".getBytes(UTF_8);
    AskedProfile asked = new AskedProfile(url, "Parameters.parameter[0].value", 2, 5);

    List<Issue> unknown =
        Judges.SHARED.validate(sent, Format.JSON, List.of(asked)).stream()
            .filter(issue -> issue.rule().equals(FhirRule.UNKNOWN_PROFILE.code()))
            .toList();

    if (held) {
      assertThat(unknown).isEmpty();
    } else {
      assertThat(unknown)
          .singleElement()
          .matches(issue -> issue.weight() == Weight.ERROR && url.equals(issue.value()))
          .matches(issue -> issue.text().contains(url) && Objects.equals(issue.line(), 2));
    }
  }

  @Test
  void prefixesComeAlong() {
    String whole =
        """
        <f:Parameters xmlns:f="http://hl7.org/fhir" xmlns:x="urn:a&amp;b">
        <f:parameter><f:name value="resource"/><f:resource><f:Patient
        ><f:birthDate value="2013-02-30"/></f:Patient></f:resource></f:parameter></f:Parameters>
        """;
    assertThat(Judges.stopping(Judges.SHARED.validate(excerpt(whole, Format.XML), List.of())))
        .singleElement()
        .matches(issue -> Objects.equals(issue.line(), 3))
        .extracting(Issue::expression)
        .isEqualTo("Parameters.parameter[0].resource.birthDate");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{\"resourceType\": \"Parameters\"}",
        "{\"resourceType\": \"Parameters\", \"parameter\": {\"name\": \"resource\"}}",
        "{\"resourceType\": \"Parameters\", \"parameter\": [[], 1, null, {}, {\"resource\": 1}]}",
        "{\"parameter\": [{\"name\": \"resource\", \"resource\": {\"resourceType\": 1}}]}",
        "<Parameters xmlns=\"http://hl7.org/fhir\"/>",
        "<Parameters xmlns=\"http://hl7.org/fhir\"><parameter/>text<x><parameter/></x></Parameters>",
        "<Parameters xmlns=\"http://hl7.org/fhir\"><parameter><resource/></parameter></Parameters>",
        "<Patient xmlns=\"http://hl7.org/fhir\"><parameter><resource/></parameter></Patient>"
      })
  void whatHoldsNoResourceHasNone(String document) {
    assertThat(outline(document).parameters()).allMatch(one -> one.resource() == null);
  }

  @Test
  void severalResourcesInOneParameterAreReadAsTheFirst() {
    String whole =
        """
        <Parameters xmlns="http://hl7.org/fhir"><parameter><resource><Patient/><Device><id/></Device>
        </resource></parameter><parameter><name value="profile"/><valueUri value="urn:x"/></parameter>
        </Parameters>
        """;
    List<Outline.Parameter> parameters = outline(whole).parameters();
    assertThat(parameters).hasSize(2);
    assertThat(Objects.requireNonNull(parameters.get(0).resource()).type()).isEqualTo("Patient");
    assertThat(parameters.get(1).value()).isEqualTo("urn:x");
    assertThat(parameters.get(1).expression()).isEqualTo("Parameters.parameter[1].value");
  }

  private static Outline outline(String document) {
    Format format = document.startsWith("{") ? Format.JSON : Format.XML;
    return Outline.of(new Admission.Admitted(document), format);
  }

  private static Excerpt excerpt(String whole, Format format) {
    Admission admission = new Guard(GuardLimits.DEFAULT).admit(whole.getBytes(UTF_8), format);
    return Outline.of((Admission.Admitted) admission, format).parameters().stream()
        .filter(one -> one.name().equals("resource"))
        .map(one -> Objects.requireNonNull(one.resource()))
        .findFirst()
        .orElseThrow();
  }
}
