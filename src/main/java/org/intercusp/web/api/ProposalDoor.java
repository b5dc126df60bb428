package org.intercusp.web.api;

import io.swagger.v3.oas.annotations.Operation;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What recipients' people changed: seen, accepted, declined. */
@RestController
class ProposalDoor {

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  private final Proposals proposals;
  private final Lookup lookup;
  private final Intake intake;
  private final ProposalAnswers answers;

  ProposalDoor(Proposals proposals, Lookup lookup, Intake intake, ProposalAnswers answers) {
    this.proposals = proposals;
    this.lookup = lookup;
    this.intake = intake;
    this.answers = answers;
  }

  @GetMapping(path = "/treatments/{id}/proposals", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> list(@PathVariable String id, @RequestParam @Nullable String clinic) {
    StoredTreatment current = lookup.current(id, clinic);
    byte[] list = answers.list(proposals.of(current.key()), current);
    return ResponseEntity.ok().eTag(Answers.tag(current, list)).body(list);
  }

  @PostMapping(
      path = "/treatments/{id}/proposals/{number}/accept",
      produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(
      summary =
          "Accepts a proposed change as a new version in place of the one that If-Match names. The"
              + " body is {}, or holds what the change lacks, as members from its place on.")
  ResponseEntity<byte[]> accept(
      @PathVariable String id,
      @PathVariable int number,
      @RequestParam @Nullable String clinic,
      @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch,
      @RequestBody byte[] supplied) {
    StoredTreatment current = lookup.current(id, clinic);
    if (ifMatch == null) {
      throw Problem.of(
          HttpStatus.PRECONDITION_REQUIRED, "Say with If-Match which version it was held against.");
    }
    int expected = IfMatch.version(ifMatch, current);
    return answer(proposals.accept(current.key(), number, expected, members(supplied)), current);
  }

  @PostMapping(
      path = "/treatments/{id}/proposals/{number}/decline",
      produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> decline(
      @PathVariable String id, @PathVariable int number, @RequestParam @Nullable String clinic) {
    StoredTreatment current = lookup.current(id, clinic);
    return answer(proposals.decline(current.key(), number), current);
  }

  private static JsonNode members(byte[] supplied) {
    try {
      JsonNode members = JSON.readTree(supplied);
      if (members.isObject()) {
        return members;
      }
    } catch (JacksonException e) {
      throw Problem.of(HttpStatus.BAD_REQUEST, "The body is not JSON.");
    }
    throw Problem.of(HttpStatus.BAD_REQUEST, "The body is a JSON object, {} where nothing lacks.");
  }

  private ResponseEntity<byte[]> answer(Decision decision, StoredTreatment current) {
    if (decision instanceof Decision.Done done) {
      StoredTreatment made = done.version();
      StoredTreatment newest = made == null ? current : made;
      return ResponseEntity.ok()
          .eTag(Answers.tag(newest))
          .body(
              answers.decided(done.proposal(), newest, made == null ? null : intake.examine(made)));
    }
    if (decision instanceof Decision.Unreadable unreadable) {
      throw new Problem(
          HttpStatus.UNPROCESSABLE_CONTENT,
          "With this change the treatment file could not be read; nothing was kept.",
          unreadable.faults());
    }
    if (decision instanceof Decision.Stale) {
      throw Problem.of(
          HttpStatus.PRECONDITION_FAILED, "The treatment has a newer version than If-Match names.");
    }
    if (decision instanceof Decision.Absent) {
      throw Problem.of(HttpStatus.NOT_FOUND, "There is no such proposal.");
    }
    throw new Problem(HttpStatus.CONFLICT, closed(decision), List.of());
  }

  private static String closed(Decision decision) {
    return decision instanceof Decision.Closed closed
        ? "It is " + closed.proposal().state().code() + " already."
        : "The place that it is about is no longer in the treatment file.";
  }
}
