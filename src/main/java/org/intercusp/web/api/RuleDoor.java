package org.intercusp.web.api;

import org.intercusp.rules.RuleCatalogueWriter;
import org.intercusp.rules.rule.Limits;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** The rule catalogue. */
@RestController
class RuleDoor {

  private final RuleCatalogueWriter catalogue;
  private final Answers answers;

  RuleDoor(Limits limits, Answers answers) {
    this.catalogue = new RuleCatalogueWriter(limits);
    this.answers = answers;
  }

  @GetMapping(path = "/rules", produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> rules() {
    return ResponseEntity.ok(answers.bytes(catalogue.write()));
  }
}
