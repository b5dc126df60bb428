package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outcomes;
import org.intercusp.conformance.Weight;
import org.intercusp.fhir.Canonicals;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** FHIR R4 over HTTP: the statement of what it does, and {@code $validate}. */
@RestController
@RequestMapping("/fhir")
class FhirDoor {

  private static final MediaType JSON = MediaType.valueOf("application/fhir+json;charset=UTF-8");
  private static final MediaType XML = MediaType.valueOf("application/fhir+xml;charset=UTF-8");

  private final FhirContext context;
  private final Conformance conformance;
  private final Outcomes outcomes;
  private final Statement statement;

  FhirDoor(FhirContext context, Conformance conformance, Outcomes outcomes, Canonicals canonicals) {
    this.context = context;
    this.conformance = conformance;
    this.outcomes = outcomes;
    this.statement = new Statement(canonicals);
  }

  @GetMapping("/metadata")
  ResponseEntity<byte[]> metadata(
      @RequestHeader(name = "Accept", required = false) @Nullable String accept,
      @RequestParam(name = "_format", required = false) @Nullable String format) {
    return answer(HttpStatus.OK, statement.write(), wantsXml(accept, format));
  }

  /** Judges a resource or Bundle; 200 with what was found, 400 when it cannot be read at all. */
  @PostMapping({"/$validate", "/{type:[A-Z][A-Za-z]+}/$validate"})
  ResponseEntity<byte[]> validate(
      @RequestBody byte[] document,
      @RequestHeader("Content-Type") String type,
      @RequestHeader(name = "Accept", required = false) @Nullable String accept,
      @RequestParam(name = "_format", required = false) @Nullable String format) {
    List<Issue> issues =
        conformance.validate(document, type.contains("xml") ? Format.XML : Format.JSON);
    boolean unreadable = issues.stream().anyMatch(issue -> issue.weight() == Weight.FATAL);
    return answer(
        unreadable ? HttpStatus.BAD_REQUEST : HttpStatus.OK,
        outcomes.of(issues),
        wantsXml(accept, format));
  }

  /** Everything else is said not to be here, and where it is. */
  @RequestMapping({"", "/**"})
  ResponseEntity<byte[]> other(
      @RequestHeader(name = "Accept", required = false) @Nullable String accept,
      @RequestParam(name = "_format", required = false) @Nullable String format) {
    Issue issue =
        new Issue(
            Weight.ERROR,
            "not-supported",
            "fhir-not-here",
            "This FHIR path does not exist: see /fhir/metadata. Treatment files are submitted to"
                + " /treatments, resources are judged at /fhir/$validate.",
            null,
            null,
            null,
            null);
    return answer(HttpStatus.NOT_FOUND, outcomes.of(List.of(issue)), wantsXml(accept, format));
  }

  private ResponseEntity<byte[]> answer(HttpStatus status, IBaseResource resource, boolean xml) {
    String text =
        (xml ? context.newXmlParser() : context.newJsonParser()).encodeResourceToString(resource);
    return ResponseEntity.status(status)
        .contentType(xml ? XML : JSON)
        .body(text.getBytes(StandardCharsets.UTF_8));
  }

  private static boolean wantsXml(@Nullable String accept, @Nullable String format) {
    if (format != null) {
      return format.contains("xml");
    }
    return accept != null && accept.contains("fhir+xml") && !accept.contains("fhir+json");
  }
}
