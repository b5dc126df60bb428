package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/**
 * Several files changed at once: new contents are staged beside, then one list of what to do is
 * written, which is the point of no return, then it is done. What was cut short is done again at
 * the next opening, or was never begun.
 */
final class Change {

  private static final String STAGED = "staged";
  private static final String PENDING = "pending";

  private final Path root;
  private final List<String> steps = new ArrayList<>();

  Change(Path root) {
    this.root = root;
  }

  /** A new file to fill, that will stand at the target. */
  Path put(Path target) throws IOException {
    Path staged = root.resolve(STAGED).resolve(UUID.randomUUID() + ".new");
    Files.createDirectories(staged.getParent());
    steps.add("put " + root.relativize(staged) + " " + root.relativize(target));
    return staged;
  }

  /** A small file with this text. */
  void put(Path target, String text) throws IOException {
    Files.writeString(put(target), text);
  }

  void delete(Path target) {
    steps.add("delete " + root.relativize(target) + " -");
  }

  boolean isEmpty() {
    return steps.isEmpty();
  }

  void commit() throws IOException {
    for (String step : steps) {
      if (step.startsWith("put ")) {
        OnDisk.content(root.resolve(step.split(" ", -1)[1]));
      }
    }
    Path list = root.resolve(STAGED).resolve("list.new");
    Files.createDirectories(list.getParent());
    Files.writeString(list, String.join("\n", steps), StandardCharsets.UTF_8);
    OnDisk.content(list);
    Files.move(list, root.resolve(PENDING), StandardCopyOption.ATOMIC_MOVE);
    OnDisk.name(root.resolve(PENDING));
    apply(root);
  }

  /** Finishes what was begun and throws away what was only staged. */
  static void recover(Path root) throws IOException {
    if (Files.exists(root.resolve(PENDING))) {
      apply(root);
    }
    Path staged = root.resolve(STAGED);
    if (Files.isDirectory(staged)) {
      try (var files = Files.newDirectoryStream(staged)) {
        for (Path file : files) {
          Files.delete(file);
        }
      }
    }
  }

  private static void apply(Path root) throws IOException {
    for (String step : Files.readAllLines(root.resolve(PENDING))) {
      String[] words = step.split(" ", 3);
      Path from = root.resolve(words[1]);
      if (words[0].equals("delete")) {
        Files.deleteIfExists(from);
      } else if (Files.exists(from)) {
        Path to = root.resolve(words[2]);
        Files.createDirectories(to.getParent());
        Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      }
    }
    Files.delete(root.resolve(PENDING));
  }
}
