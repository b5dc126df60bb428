package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.IParser;
import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.Date;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.archive.FiledResource;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Outcomes;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/** Writes answers in the format and extent that was asked for. */
@Component
class Rendering {

  private static final MediaType JSON = MediaType.valueOf("application/fhir+json;charset=UTF-8");
  private static final MediaType XML = MediaType.valueOf("application/fhir+xml;charset=UTF-8");

  private static final String VARY = "Accept, Prefer";

  private final FhirContext context;
  private final Outcomes outcomes;

  Rendering(FhirContext context, Outcomes outcomes) {
    this.context = context;
    this.outcomes = outcomes;
  }

  /** The resource of a version, with the version and time it has here. */
  Resource resource(FiledResource filed) {
    Resource resource = (Resource) context.newJsonParser().parseResource(filed.content());
    resource.getMeta().setVersionId(Integer.toString(filed.version()));
    resource.getMeta().setLastUpdated(Date.from(filed.updatedAt()));
    return resource;
  }

  /** What a fault says. */
  OperationOutcome outcome(Fault fault) {
    return outcomes.of(fault.issues());
  }

  ResponseEntity<byte[]> fault(Asked asked, Fault fault) {
    return answer(fault.status(), fault.headers(), outcome(fault), asked.forFault());
  }

  /** A version read, or 304 to who has it. */
  ResponseEntity<byte[]> versioned(Resource version, Asked asked, HttpServletRequest request) {
    return versioned(version, new HttpHeaders(), asked, request);
  }

  /**
   * A version read, or 304 to who has it.
   *
   * @param further headers of the answer
   */
  ResponseEntity<byte[]> versioned(
      Resource version, HttpHeaders further, Asked asked, HttpServletRequest request) {
    if (asked.summary() == Asked.Part.COUNT) {
      throw Fault.of(Reason.PARAMETER, "_summary=count is of searches.");
    }
    HttpHeaders headers = new HttpHeaders();
    headers.setETag("W/\"" + version.getMeta().getVersionId() + "\"");
    headers.setLastModified(version.getMeta().getLastUpdated().toInstant());
    headers.putAll(further);
    if (Known.of(request).has(version.getMeta())) {
      // What 200 would say of the version, 304 says too (RFC 9110, 15.4.5).
      return ResponseEntity.status(HttpStatus.NOT_MODIFIED)
          .headers(headers)
          .header(HttpHeaders.VARY, VARY)
          .build();
    }
    return answer(HttpStatus.OK, headers, version, asked);
  }

  ResponseEntity<byte[]> answer(IBaseResource resource, Asked asked) {
    return answer(HttpStatus.OK, new HttpHeaders(), resource, asked);
  }

  ResponseEntity<byte[]> answer(
      HttpStatus status, HttpHeaders headers, IBaseResource resource, Asked asked) {
    IParser parser =
        asked.format() == Format.XML ? context.newXmlParser() : context.newJsonParser();
    parser.setPrettyPrint(asked.pretty());
    reduce(parser, resource, asked);
    return ResponseEntity.status(status)
        .headers(headers)
        .header(HttpHeaders.VARY, VARY)
        .contentType(asked.format() == Format.XML ? XML : JSON)
        .body(parser.encodeResourceToString(resource).getBytes(StandardCharsets.UTF_8));
  }

  private static void reduce(IParser parser, IBaseResource resource, Asked asked) {
    if (resource instanceof OperationOutcome) {
      return;
    }
    switch (asked.summary()) {
      case TRUE -> parser.setSummaryMode(true);
      case TEXT -> elements(parser, resource, List.of("text"));
      case DATA -> parser.setSuppressNarratives(true);
      case FALSE, COUNT -> {
        if (!asked.elements().isEmpty()) {
          elements(parser, resource, asked.elements());
        }
      }
    }
  }

  private static void elements(IParser parser, IBaseResource resource, List<String> names) {
    Set<String> kept = new LinkedHashSet<>(Set.of("*.id", "*.meta", "*.(mandatory)"));
    names.forEach(name -> kept.add(name.contains(".") ? name : "*." + name));
    parser.setEncodeElements(kept);
    parser.setEncodeElementsAppliesToChildResourcesOnly(resource instanceof Bundle);
  }

  /** The entity tag of a version: weak, since its text differs by format and extent. */
  static String tag(FiledResource filed) {
    return "W/\"" + filed.version() + "\"";
  }
}
