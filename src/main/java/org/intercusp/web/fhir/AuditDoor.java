package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.SearchEntryMode;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.IssueSeverity;
import org.hl7.fhir.r4.model.OperationOutcome.IssueType;
import org.intercusp.audit.AuditRecord;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.fhir.AuditMapper;
import org.intercusp.fhir.Canonicals;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/** The trail of deeds as FHIR AuditEvents, the newest first, to those who reach what was done. */
@RestController
class AuditDoor {

  private static final MediaType JSON = MediaType.valueOf("application/fhir+json;charset=UTF-8");
  private static final String EVENT = "AuditEvent";

  private final AuditTrail trail;
  private final AuditMapper mapper;
  private final FhirContext context;

  AuditDoor(AuditTrail trail, Canonicals canonicals, FhirContext context) {
    this.trail = trail;
    this.mapper = new AuditMapper(canonicals);
    this.context = context;
  }

  /** Records, {@code _count} of them, those before the record {@code before}. */
  @GetMapping("/fhir/AuditEvent")
  ResponseEntity<byte[]> search(
      @RequestParam(name = "_count", defaultValue = "50") int count,
      @RequestParam(name = "before", required = false) @Nullable String before) {
    if (count < 1 || count > AuditTrail.LONGEST_PAGE) {
      return refused(HttpStatus.BAD_REQUEST, "_count is from 1 to " + AuditTrail.LONGEST_PAGE);
    }
    AuditRecord after = null;
    if (before != null) {
      after = trail.find(before).orElse(null);
      if (after == null) {
        return refused(HttpStatus.NOT_FOUND, "There is no such AuditEvent");
      }
    }
    List<AuditRecord> found = trail.newest(after, count + 1);
    List<AuditRecord> shown = found.size() > count ? found.subList(0, count) : found;
    trail.done(Deed.SEARCH, Thing.list(EVENT));
    Bundle bundle = new Bundle();
    bundle.setType(BundleType.SEARCHSET);
    if (found.size() > count) {
      bundle
          .addLink()
          .setRelation("next")
          .setUrl(EVENT + "?_count=" + count + "&before=" + shown.get(count - 1).id());
    }
    for (AuditRecord one : shown) {
      bundle.addEntry().setResource(mapper.toFhir(one)).getSearch().setMode(SearchEntryMode.MATCH);
    }
    return answer(HttpStatus.OK, bundle);
  }

  /** One record. */
  @GetMapping("/fhir/AuditEvent/{id}")
  ResponseEntity<byte[]> read(@PathVariable String id) {
    AuditRecord one = trail.find(id).orElse(null);
    if (one == null) {
      return refused(HttpStatus.NOT_FOUND, "There is no such AuditEvent");
    }
    trail.done(Deed.READ, new Thing(EVENT, one.thing().clinic(), id, null, null));
    return answer(HttpStatus.OK, mapper.toFhir(one));
  }

  /** Answered here, since a fault on a FHIR path is an OperationOutcome. */
  @ExceptionHandler(MethodArgumentTypeMismatchException.class)
  ResponseEntity<byte[]> mistyped(MethodArgumentTypeMismatchException fault) {
    return refused(HttpStatus.BAD_REQUEST, fault.getName() + " has a value that cannot be read");
  }

  private ResponseEntity<byte[]> refused(HttpStatus status, String words) {
    OperationOutcome outcome = new OperationOutcome();
    outcome
        .addIssue()
        .setSeverity(IssueSeverity.ERROR)
        .setCode(status == HttpStatus.NOT_FOUND ? IssueType.NOTFOUND : IssueType.VALUE)
        .getDetails()
        .setText(words);
    return answer(status, outcome);
  }

  private ResponseEntity<byte[]> answer(HttpStatus status, IBaseResource resource) {
    return ResponseEntity.status(status)
        .contentType(JSON)
        .body(
            context
                .newJsonParser()
                .encodeResourceToString(resource)
                .getBytes(StandardCharsets.UTF_8));
  }
}
