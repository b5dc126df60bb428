package org.intercusp.treatment.submission;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Writes the published JSON Schema of the outcome record anew from its description, on purpose; no
 * test does. Started as WriteTreatmentSchema is.
 */
public final class WriteSubmissionSchema {

  private WriteSubmissionSchema() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    Path file = Path.of("src/main/resources/schema/outcome-1.json");
    Files.write(file, SubmissionSchema.text().getBytes(UTF_8));
    System.out.println("wrote " + file);
  }
}
