package org.intercusp.treatment;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;

/** Treatment files of the tests. */
final class Files {

  private Files() {}

  /** One that has every member of the dictionary. */
  static byte[] whole() {
    return resource("/treatment/whole.json");
  }

  static byte[] resource(String path) {
    try (InputStream in = Files.class.getResourceAsStream(path)) {
      return Objects.requireNonNull(in, path).readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
