package org.intercusp.web.api;

import io.swagger.v3.oas.annotations.Operation;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.intercusp.archive.DatabaseBackup;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

/** Hands an operator the embedded database, while the service works. */
@RestController
class BackupDoor {

  private final DatabaseBackup backup;

  BackupDoor(DatabaseBackup backup) {
    this.backup = backup;
  }

  @PostMapping("/backup")
  @Operation(summary = "The embedded database as a ZIP file that restore --from takes.")
  void backup(HttpServletResponse response) throws IOException {
    if (!backup.isPossible()) {
      throw Problem.of(
          HttpStatus.CONFLICT,
          "The database is a server's: back it up with its own means (PostgreSQL: pg_dump).");
    }
    response.setContentType("application/zip");
    response.setHeader("Content-Disposition", "attachment; filename=\"intercusp-backup.zip\"");
    backup.write(response.getOutputStream());
  }
}
