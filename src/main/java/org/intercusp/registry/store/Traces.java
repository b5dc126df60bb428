package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.registry.privacy.Pseudonyms;

/**
 * What is left of a person outside the cases: the lists of what was refused, which name the person
 * and the key by pseudonym at the end of each line. Withdrawal takes those lines out.
 */
final class Traces {

  private final Path loads;
  private final Pseudonyms pseudonyms;

  Traces(Path loads, Pseudonyms pseudonyms) {
    this.loads = loads;
    this.pseudonyms = pseudonyms;
  }

  void scrub(Change change, Set<String> gone) throws IOException {
    if (gone.isEmpty() || !Files.isDirectory(loads)) {
      return;
    }
    try (DirectoryStream<Path> files = Files.newDirectoryStream(loads, "*" + RefusedLine.SUFFIX)) {
      for (Path file : files) {
        String text = Files.readString(file);
        String left = without(gone, file, text);
        if (left.length() < text.length()) {
          change.put(file, left);
        }
      }
    }
  }

  /** The text of such a list without the lines about these persons. */
  String without(Set<String> gone, Path file, String text) {
    if (gone.isEmpty() || !file.toString().endsWith(RefusedLine.SUFFIX)) {
      return text;
    }
    return text.lines()
        .filter(line -> !RefusedLine.isOf(line, gone, pseudonyms))
        .map(line -> line + "\n")
        .collect(Collectors.joining());
  }
}
