package org.intercusp.web.api;

import io.swagger.v3.oas.annotations.Operation;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.bulk.Exports;
import org.intercusp.exchange.custody.Erasure;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Erasing a treatment after its retention: first what would go and what stays, then the deed. */
@RestController
class ErasureDoor {

  private static final String PATH = "/treatments/{id}/erasure";

  private final Erasure erasure;
  private final Exports exports;
  private final Lookup lookup;
  private final Answers answers;

  ErasureDoor(Erasure erasure, Exports exports, Lookup lookup, Answers answers) {
    this.erasure = erasure;
    this.exports = exports;
    this.lookup = lookup;
    this.answers = answers;
  }

  /** What repeats the treatment's id, so that nobody erases by mistake. */
  record Confirmation(@Nullable String confirm) {}

  @GetMapping(path = PATH, produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(summary = "What erasing would remove and leave, and from which day on it may be asked")
  ResponseEntity<byte[]> look(@PathVariable String id, @RequestParam @Nullable String clinic) {
    TreatmentKey key = lookup.current(id, clinic).key();
    return ResponseEntity.ok(answer(key, erasure.standing(key).orElseThrow(), false));
  }

  @PostMapping(path = PATH, produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(summary = "Erases the treatment; the body repeats its id: {\"confirm\": \"ID\"}")
  ResponseEntity<byte[]> erase(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestBody Confirmation confirmation) {
    TreatmentKey key = lookup.current(id, clinic).key();
    if (!key.treatment().equals(confirmation.confirm())) {
      throw Problem.of(
          HttpStatus.UNPROCESSABLE_CONTENT,
          "Nothing was erased: confirm must repeat the treatment's id.");
    }
    Erasure.Standing before = erasure.erase(key).orElseThrow();
    if (!before.mayGo()) {
      throw Problem.of(HttpStatus.CONFLICT, "Nothing was erased: " + before.refusal());
    }
    // Whoever asked for a copy of everything asks again, and gets it without what was erased.
    exports.forget(key.reached());
    return ResponseEntity.ok(answer(key, before, true));
  }

  private byte[] answer(TreatmentKey key, Erasure.Standing standing, boolean erased) {
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    node.put("treatment", key.treatment());
    node.put("erased", erased);
    node.put("mayBeErased", standing.mayGo());
    if (!standing.mayGo()) {
      node.put("reason", standing.refusal());
    }
    if (standing.until() != null) {
      node.put("keptUntil", standing.until().toString());
    }
    node.putObject("goes")
        .put("versions", standing.versions())
        .put("deliveries", standing.deliveries());
    ObjectNode stays = node.putObject("stays");
    stays.put(
        "trail",
        "who did what to the treatment's id, without anything of its content; and by which words"
            + " people searched, which may name the patient");
    stays.put("id", "the treatment's id, so that it is not used again");
    stays.put("registry", "outcome rows under a pseudonym; a withdrawal there takes them out");
    standing.holders().forEach(stays.putArray("recipients")::add);
    return answers.bytes(node);
  }
}
