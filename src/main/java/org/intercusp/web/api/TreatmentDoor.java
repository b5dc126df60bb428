package org.intercusp.web.api;

import io.swagger.v3.oas.annotations.Operation;
import java.net.URI;
import java.util.List;
import java.util.Objects;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Interaction;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.TreatmentText;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** Treatment files in and out. */
@RestController
class TreatmentDoor {

  private static final String TO =
      "Takes a treatment file; to=NAME, repeated, queues its delivery to these recipients in the"
          + " same transaction. The answer then has deliveries[] {to, state, delivery, findings}.";

  private final Intake intake;
  private final TreatmentArchive archive;
  private final Lookup lookup;
  private final Answers answers;
  private final TreatmentText mapper;
  private final Recipients recipients;
  private final Disclosures disclosures;
  private final CurrentCaller callers;

  TreatmentDoor(
      Intake intake,
      TreatmentArchive archive,
      Lookup lookup,
      Answers answers,
      TreatmentText mapper,
      Recipients recipients,
      Disclosures disclosures,
      CurrentCaller callers) {
    this.callers = callers;
    this.disclosures = disclosures;
    this.intake = intake;
    this.archive = archive;
    this.lookup = lookup;
    this.answers = answers;
    this.mapper = mapper;
    this.recipients = recipients;
  }

  /** Figures and findings of a file; nothing is kept. */
  @PostMapping(path = "/check", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> check(@RequestBody byte[] file) {
    ReadResult result = intake.read(file);
    if (result instanceof ReadResult.Refused refused) {
      throw Problem.unreadable(refused.faults());
    }
    Treatment treatment = ((ReadResult.Accepted) result).treatment();
    return ResponseEntity.ok(answers.examination(intake.examine(treatment)));
  }

  @PostMapping(path = "/treatments", produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(summary = TO)
  ResponseEntity<byte[]> submit(
      @RequestBody byte[] file, @RequestParam(required = false) @Nullable List<String> to) {
    Intake.Taken.Filed filed = readable(intake.store(file, known(to)));
    if (filed.storing() instanceof Storing.Stored stored) {
      return ResponseEntity.created(place(stored.version()))
          .eTag(Answers.tag(stored.version()))
          .body(answers.filed(intake.examine(filed.treatment()), filed.deliveries()));
    }
    if (filed.storing() instanceof Storing.Erased) {
      throw Problem.erased();
    }
    throw Problem.of(
        HttpStatus.CONFLICT,
        "A treatment with this id is there already; replace it with PUT and If-Match.");
  }

  @GetMapping(path = "/treatments", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> list(
      @RequestParam @Nullable String after, @RequestParam(defaultValue = "50") int count) {
    return ResponseEntity.ok(answers.list(lookup.page(after, count)));
  }

  @GetMapping(path = "/treatments/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> read(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam @Nullable Integer version) {
    StoredTreatment stored = lookup.version(id, clinic, version);
    return ResponseEntity.ok().eTag(Answers.tag(stored)).body(stored.bytes());
  }

  @PutMapping(path = "/treatments/{id}", produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(summary = TO)
  ResponseEntity<byte[]> replace(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam(required = false) @Nullable List<String> to,
      @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
      @RequestBody byte[] file) {
    StoredTreatment current = lookup.current(id, clinic);
    if (ifMatch == null) {
      throw Problem.of(
          HttpStatus.PRECONDITION_REQUIRED, "Say with If-Match which version is replaced.");
    }
    int expected = IfMatch.version(ifMatch, current);
    Intake.Taken.Filed filed = readable(intake.replace(current.key(), expected, file, known(to)));
    StoredTreatment newest = replaced(filed.storing());
    return ResponseEntity.ok()
        .eTag(Answers.tag(newest))
        .body(answers.filed(intake.examine(filed.treatment()), filed.deliveries()));
  }

  /** Names of recipients, each known; nothing is stored where one is not. */
  private List<String> known(@Nullable List<String> to) {
    List<String> names = to == null ? List.of() : to.stream().distinct().toList();
    if (!names.isEmpty()) {
      mustDeliver();
    }
    if (!names.stream().allMatch(name -> recipients.named(name).isPresent())) {
      throw Problem.of(
          HttpStatus.UNPROCESSABLE_CONTENT,
          "There is no recipient with a name in to; see /recipients. Nothing was kept.");
    }
    return names;
  }

  /** What the door of deliveries asks for; the path alone does not say that something leaves. */
  private void mustDeliver() {
    Caller caller = callers.caller();
    if (!caller.may("Task", Interaction.CREATE) || !caller.may("*", Interaction.READ)) {
      throw Problem.of(
          HttpStatus.FORBIDDEN, "A delivery asks for Task.c and *.r. Nothing was kept.");
    }
  }

  private static StoredTreatment replaced(Storing storing) {
    if (storing instanceof Storing.Stored stored) {
      return stored.version();
    }
    if (storing instanceof Storing.Same same) {
      return same.version();
    }
    throw Problem.of(
        HttpStatus.PRECONDITION_FAILED, "The treatment has a newer version than If-Match names.");
  }

  @GetMapping(path = "/treatments/{id}/history", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> history(@PathVariable String id, @RequestParam @Nullable String clinic) {
    List<StoredTreatment> versions = archive.history(lookup.current(id, clinic).key());
    return ResponseEntity.ok(answers.history(versions));
  }

  @GetMapping(path = "/treatments/{id}/figures", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> figures(@PathVariable String id, @RequestParam @Nullable String clinic) {
    return ResponseEntity.ok(answers.figures(examined(id, clinic)));
  }

  @GetMapping(path = "/treatments/{id}/findings", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> findings(@PathVariable String id, @RequestParam @Nullable String clinic) {
    return ResponseEntity.ok(answers.findings(examined(id, clinic)));
  }

  /** The treatment as a FHIR Bundle. */
  @GetMapping(
      path = "/treatments/{id}/bundle",
      produces = {"application/fhir+json", MediaType.APPLICATION_JSON_VALUE})
  ResponseEntity<byte[]> bundle(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam(defaultValue = "transaction") String as) {
    StoredTreatment stored = lookup.current(id, clinic);
    Treatment treatment = intake.treatment(stored);
    List<Finding> findings = intake.examine(treatment).plainFindings();
    byte[] bundle =
        mapper.write(
            treatment, intake.day(treatment), findings, form(as), TreatmentText.Format.JSON);
    disclosures.note(stored, "bundle");
    return ResponseEntity.ok().eTag(Answers.tag(stored, bundle)).body(bundle);
  }

  private static BundleForm form(String as) {
    return switch (as) {
      case "transaction" -> BundleForm.TRANSACTION;
      case "document" -> BundleForm.DOCUMENT;
      case "collection" -> BundleForm.COLLECTION;
      default ->
          throw Problem.of(HttpStatus.BAD_REQUEST, "as is transaction, document or collection.");
    };
  }

  private Examination examined(String id, @Nullable String clinic) {
    return intake.examine(lookup.current(id, clinic));
  }

  private static Intake.Taken.Filed readable(Intake.Taken taken) {
    if (taken instanceof Intake.Taken.Unreadable unreadable) {
      throw Problem.unreadable(unreadable.faults());
    }
    return Objects.requireNonNull((Intake.Taken.Filed) taken);
  }

  private URI place(StoredTreatment stored) {
    return URI.create(lookup.place(stored.key()));
  }
}
