package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A file named on the command line; {@code -} is standard input.
 *
 * @param name as given
 */
record Input(String name) {

  /** Opens the bytes; the caller closes them. */
  InputStream open() throws IOException {
    return isStandardInput() ? System.in : Files.newInputStream(Path.of(name));
  }

  /** The whole content, at most {@code limit} bytes. */
  byte[] read(int limit) throws IOException {
    try (InputStream bytes = open()) {
      byte[] content = bytes.readNBytes(limit + 1);
      if (content.length > limit) {
        throw new IOException("larger than " + limit + " bytes");
      }
      return content;
    }
  }

  boolean isStandardInput() {
    return name.equals("-");
  }

  @Override
  public String toString() {
    return isStandardInput() ? "standard input" : name;
  }

  /** How many bytes there are; 0 where that is not known. */
  long size() {
    try {
      return isStandardInput() ? 0 : Files.size(Path.of(name));
    } catch (IOException e) {
      return 0;
    }
  }
}
