package org.intercusp.web.api;

import java.util.Locale;
import java.util.stream.Stream;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.summary.Audience;
import org.intercusp.summary.Form;
import org.intercusp.summary.Summaries;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** The documents that dentist, laboratory and patient read. */
@RestController
class SummaryDoor {

  private final Intake intake;
  private final Lookup lookup;
  private final Summaries summaries;
  private final Disclosures disclosures;

  SummaryDoor(Intake intake, Lookup lookup, Summaries summaries, Disclosures disclosures) {
    this.disclosures = disclosures;
    this.intake = intake;
    this.lookup = lookup;
    this.summaries = summaries;
  }

  @GetMapping("/treatments/{id}/summary")
  ResponseEntity<byte[]> summary(
      @PathVariable String id,
      @RequestParam @Nullable String clinic,
      @RequestParam(name = "for", defaultValue = "dentist") String audience,
      @RequestParam(defaultValue = "html") String format,
      @RequestParam(defaultValue = "en") Locale language) {
    Audience reader =
        Stream.of(Audience.values())
            .filter(one -> one.code().equals(audience))
            .findFirst()
            .orElseThrow(() -> bad("for is dentist, laboratory or patient."));
    Form form =
        Stream.of(Form.values())
            .filter(one -> one.code().equals(format))
            .findFirst()
            .orElseThrow(() -> bad("format is html or pdf."));
    StoredTreatment stored = lookup.current(id, clinic);
    Treatment treatment = intake.treatment(stored);
    byte[] document =
        summaries.render(
            treatment, intake.examine(treatment), intake.day(treatment), reader, form, language);
    disclosures.note(stored, "summary for " + reader.code());
    return ResponseEntity.ok()
        .contentType(MediaType.parseMediaType(form.mediaType()))
        .header("Content-Security-Policy", summaries.contentSecurityPolicy())
        .body(document);
  }

  private static Problem bad(String words) {
    return Problem.of(HttpStatus.BAD_REQUEST, words);
  }
}
