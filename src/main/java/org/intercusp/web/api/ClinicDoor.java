package org.intercusp.web.api;

import io.swagger.v3.oas.annotations.Operation;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Map;
import java.util.Set;
import org.intercusp.access.Clinic;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.custody.ClinicExport;
import org.intercusp.exchange.custody.ClinicImport;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** A clinic's data as a whole, out and in. */
@RestController
class ClinicDoor {

  private final ClinicExport export;
  private final ClinicImport bringIn;
  private final TreatmentArchive archive;
  private final Answers answers;

  ClinicDoor(ClinicExport export, ClinicImport bringIn, TreatmentArchive archive, Answers answers) {
    this.export = export;
    this.bringIn = bringIn;
    this.archive = archive;
    this.answers = answers;
  }

  @GetMapping("/export")
  @Operation(
      summary =
          "All of a clinic: treatments in every version, deliveries, trail; NDJSON in a ZIP file")
  void export(@RequestParam @Nullable String clinic, HttpServletResponse response)
      throws IOException {
    Clinic whose = whose(clinic);
    response.setContentType("application/zip");
    response.setHeader("Content-Disposition", "attachment; filename=\"intercusp-clinic.zip\"");
    export.write(whose, response.getOutputStream());
  }

  private Clinic whose(@Nullable String named) {
    Set<Clinic> clinics = archive.clinics();
    if (named != null) {
      Identifier identifier = Lookup.identifier(named);
      Clinic clinic = new Clinic(identifier.system(), identifier.value());
      if (clinics.contains(clinic)) {
        return clinic;
      }
    } else if (clinics.size() > 1) {
      throw Problem.of(
          HttpStatus.BAD_REQUEST, "There are several clinics: name one with clinic=SYSTEM|VALUE.");
    } else if (clinics.size() == 1) {
      return clinics.iterator().next();
    }
    throw Problem.of(HttpStatus.NOT_FOUND, "There is nothing of such a clinic.");
  }

  @PostMapping(path = "/import", produces = MediaType.APPLICATION_JSON_VALUE)
  @Operation(summary = "Brings in what /export wrote, for a clinic that is not here yet")
  ResponseEntity<byte[]> bringIn(HttpServletRequest request) throws IOException {
    try {
      Map<String, Long> rows = bringIn.read(request.getInputStream());
      archive.fileAll();
      ObjectNode node = JsonNodeFactory.instance.objectNode();
      rows.forEach(node.putObject("rows")::put);
      return ResponseEntity.status(HttpStatus.CREATED).body(answers.bytes(node));
    } catch (ClinicImport.Refused e) {
      throw Problem.of(HttpStatus.UNPROCESSABLE_CONTENT, e.getMessage() + "; nothing was kept.");
    }
  }
}
