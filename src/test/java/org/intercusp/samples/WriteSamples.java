package org.intercusp.samples;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;

/**
 * Writes the expected findings and Bundles of {@code sample-bundles} anew from the treatment files,
 * on purpose; no test does. The command stands in {@code sample-bundles/README.md}. Read the
 * difference before committing it.
 */
public final class WriteSamples {

  private WriteSamples() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    for (Sample sample : Sample.all()) {
      Files.write(sample.findingsFile(), sample.findings().getBytes(UTF_8));
      Files.write(sample.bundleFile(), sample.bundleText().getBytes(UTF_8));
      System.out.println("wrote what is expected of " + sample.name());
    }
  }
}
