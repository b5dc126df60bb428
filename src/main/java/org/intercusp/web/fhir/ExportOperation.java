package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.bulk.ExportJob;
import org.intercusp.bulk.Exports;
import org.intercusp.bulk.Wanted;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outcomes;
import org.intercusp.conformance.Weight;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * {@code $export} of everything, or of what speaks of patients (Bulk Data Access 2.0.0): asked for
 * here, looked after, and taken back.
 */
@Component
class ExportOperation {

  /** Where jobs stand, below the base. */
  static final String PATH = "$export";

  /** Seconds until it is worth asking again; common practice, no source. */
  private static final String AGAIN = "5";

  private static final Issue TAKEN_BACK =
      new Issue(
          Weight.INFORMATION,
          "informational",
          "fhir-taken-back",
          "The export was taken back.",
          null,
          null,
          null,
          null);

  private static final JsonMapper JSON = JsonMapper.builder().build();

  private final Exports exports;
  private final Rendering rendering;
  private final Outcomes outcomes;
  private final CurrentCaller callers;

  ExportOperation(Exports exports, Rendering rendering, Outcomes outcomes, CurrentCaller callers) {
    this.exports = exports;
    this.rendering = rendering;
    this.outcomes = outcomes;
    this.callers = callers;
  }

  /** 202, and where to look. */
  ResponseEntity<byte[]> begin(Asked asked, HttpServletRequest request, boolean ofPatients) {
    Set<String> preferences = preferences(request);
    if (!preferences.contains("respond-async")) {
      throw Fault.of(Reason.PARAMETER, "An export is asked for with Prefer: respond-async.");
    }
    ExportParameters parameters =
        ExportParameters.read(asked, types(ofPatients), preferences.contains("handling=lenient"));
    Wanted wanted = new Wanted(parameters.types(), parameters.since(), url(asked, request));
    String id =
        exports
            .begin(wanted)
            .orElseThrow(
                () ->
                    Fault.of(Reason.TOO_MANY, "You have as many exports as one caller may have.")
                        .with(HttpHeaders.RETRY_AFTER, "60"));
    HttpHeaders headers = new HttpHeaders();
    headers.add(HttpHeaders.CONTENT_LOCATION, asked.base() + "/" + PATH + "/" + id);
    return parameters.ignored().isEmpty()
        ? ResponseEntity.accepted().headers(headers).build()
        : rendering.answer(
            HttpStatus.ACCEPTED, headers, outcomes.of(parameters.ignored()), asked.forFault());
  }

  private static Set<String> preferences(HttpServletRequest request) {
    return Collections.list(request.getHeaders("Prefer")).stream()
        .flatMap(header -> Arrays.stream(header.split("[,;]", -1)))
        .map(word -> word.strip().toLowerCase(Locale.ROOT))
        .collect(Collectors.toSet());
  }

  static Set<String> types(boolean ofPatients) {
    return Offers.types().stream()
        .filter(type -> !ofPatients || type.equals("Patient") || speaksOfPatients(type))
        .collect(Collectors.toSet());
  }

  private static boolean speaksOfPatients(String type) {
    return Offers.searches(type).contains(Offers.Search.PATIENT);
  }

  private static String url(Asked asked, HttpServletRequest request) {
    String query = request.getQueryString();
    String path = request.getRequestURI().substring("/fhir".length());
    return asked.base() + path + (query == null ? "" : "?" + query);
  }

  /** 202 while it is under way, 200 with what was made, 500 where it could not be. */
  ResponseEntity<byte[]> status(String id, Asked asked) {
    ExportJob job = exports.find(id).orElseThrow(ExportOperation::absent);
    if (job.isUnderWay()) {
      return ResponseEntity.accepted()
          .header("X-Progress", progress(job))
          .header(HttpHeaders.RETRY_AFTER, AGAIN)
          .build();
    }
    Instant expires = Objects.requireNonNull(job.expiresAt());
    HttpHeaders headers = new HttpHeaders();
    headers.setExpires(expires.toEpochMilli());
    headers.setCacheControl("private, no-store");
    if (job.state() == ExportJob.State.FAILED) {
      Fault fault = Fault.of(Reason.FAILED, "The export could not be made; ask for it again.");
      return rendering.answer(fault.status(), headers, rendering.outcome(fault), asked.forFault());
    }
    return ResponseEntity.ok()
        .headers(headers)
        .contentType(MediaType.APPLICATION_JSON)
        .body(JSON.writeValueAsBytes(manifest(job, asked)));
  }

  private static String progress(ExportJob job) {
    return job.total() == 0
        ? "waiting"
        : "%d of %d resources".formatted(job.written(), job.total());
  }

  private ObjectNode manifest(ExportJob job, Asked asked) {
    ObjectNode manifest = JSON.createObjectNode();
    manifest.put(
        "transactionTime",
        DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
            job.transactionTime().atOffset(ZoneOffset.UTC)));
    manifest.put("request", job.wanted().request());
    manifest.put("requiresAccessToken", callers.caller().kind() != Caller.Kind.LOCAL);
    ArrayNode output = manifest.putArray("output");
    for (ExportJob.Output file : job.output()) {
      output
          .addObject()
          .put("type", file.type())
          .put("url", asked.base() + "/" + PATH + "/" + job.id() + "/" + file.file())
          .put("count", file.count());
    }
    manifest.putArray("error");
    return manifest;
  }

  /** 202; from then on it is not there. */
  ResponseEntity<byte[]> cancel(String id, Asked asked) {
    if (!exports.cancel(id)) {
      throw absent();
    }
    return rendering.answer(
        HttpStatus.ACCEPTED, new HttpHeaders(), outcomes.of(List.of(TAKEN_BACK)), asked.forFault());
  }

  static Fault absent() {
    return Fault.of(Reason.NOT_FOUND, "There is no such export.");
  }
}
