package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.file.Path;
import java.util.Optional;
import org.intercusp.bulk.Exports;
import org.springframework.core.io.FileSystemResource;
import org.springframework.http.CacheControl;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** The files of exports, streamed, in parts where a part is asked for. */
@RestController
class ExportFiles {

  private static final MediaType LINES = MediaType.valueOf("application/fhir+ndjson");

  private final Exports exports;
  private final Rendering rendering;

  ExportFiles(Exports exports, Rendering rendering) {
    this.exports = exports;
    this.rendering = rendering;
  }

  /** One file of a finished export, to who asked for it. */
  @GetMapping("/fhir/$export/{id}/{file}")
  ResponseEntity<?> file(
      @PathVariable String id, @PathVariable String file, HttpServletRequest request) {
    Optional<Path> found = exports.file(id, file);
    if (found.isEmpty()) {
      return rendering.fault(Asked.plainly(FhirDoor.base(request)), ExportOperation.absent());
    }
    return ResponseEntity.ok()
        .contentType(LINES)
        .cacheControl(CacheControl.noStore())
        .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + file + "\"")
        .body(new FileSystemResource(found.get()));
  }
}
