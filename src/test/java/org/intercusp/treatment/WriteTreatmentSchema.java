package org.intercusp.treatment;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Writes the published JSON Schema anew from the description of the file, on purpose; no test does.
 * From the top of the project: {@code mvn -q test-compile dependency:build-classpath
 * -Dmdep.outputFile=target/classpath}, then this class with {@code java -cp
 * "target/test-classes:target/classes:$(cat target/classpath)"}.
 */
public final class WriteTreatmentSchema {

  static final Path FILE = Path.of("src/main/resources/schema/treatment-1.json");

  private WriteTreatmentSchema() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    Files.createDirectories(FILE.getParent());
    Files.write(FILE, TreatmentSchema.text().getBytes(UTF_8));
    System.out.println("wrote " + FILE);
  }
}
