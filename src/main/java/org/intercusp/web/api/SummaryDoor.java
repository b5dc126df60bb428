package org.intercusp.web.api;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.summary.Audience;
import org.intercusp.summary.Form;
import org.intercusp.summary.Summaries;
import org.intercusp.summary.content.PatientTexts;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
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
      @RequestParam(name = "format", required = false) @Nullable String asked,
      @RequestHeader(name = "Accept", required = false) @Nullable String accept,
      @RequestParam(defaultValue = "en") Locale language) {
    Audience reader =
        Stream.of(Audience.values())
            .filter(one -> one.code().equals(audience))
            .findFirst()
            .orElseThrow(() -> bad("for is dentist, laboratory or patient."));
    String format = asked == null ? accepted(accept) : asked;
    Form form =
        Stream.of(Form.values())
            .filter(one -> one.code().equals(format))
            .findFirst()
            .orElseThrow(() -> bad("format is html, pdf or fhir."));
    if (!PatientTexts.areIn(language)) {
      throw bad("language is en or de.");
    }
    if (!Summaries.areIn(language, reader)) {
      throw bad("language is en: the patient's document alone is in German too.");
    }
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

  /** The form that an Accept header likes best; a page where it asks for none of them. */
  private static String accepted(@Nullable String accept) {
    List<MediaType> types;
    try {
      types = MediaType.parseMediaTypes(accept);
    } catch (InvalidMediaTypeException e) {
      throw bad("Accept can't be read.");
    }
    return types.stream()
        .sorted(Comparator.comparing(MediaType::getQualityValue).reversed())
        .flatMap(type -> Stream.of(Form.values()).filter(form -> isA(form, type)))
        .map(Form::code)
        .findFirst()
        .orElse(Form.HTML.code());
  }

  private static boolean isA(Form form, MediaType type) {
    return type.getQualityValue() > 0 && type.includes(MediaType.parseMediaType(form.mediaType()));
  }

  private static Problem bad(String words) {
    return Problem.of(HttpStatus.BAD_REQUEST, words);
  }
}
