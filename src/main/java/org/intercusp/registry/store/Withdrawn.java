package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.intercusp.registry.privacy.Pseudonyms;
import org.jspecify.annotations.Nullable;

/**
 * Submissions that consent was withdrawn for, as keyed hashes of their ids, so that the same old
 * file does not bring the case back. Nothing else is kept of them. Few enough to be held in memory:
 * a hundred bytes each.
 */
final class Withdrawn {

  /**
   * What is remembered.
   *
   * @param revision up to which it is refused
   * @param content hash of the withdrawal, or empty where another record's withdrawal took it away
   */
  record Tomb(int revision, String content) {}

  private final Path file;
  private final Map<String, Tomb> tombs;
  private boolean changed;

  private Withdrawn(Path file, Map<String, Tomb> tombs) {
    this.file = file;
    this.tombs = tombs;
  }

  /** Reads the file, each line with the keys laid on that came since. */
  static Withdrawn open(Path file, Pseudonyms pseudonyms) throws IOException {
    Map<String, Tomb> tombs = new HashMap<>();
    if (Files.exists(file)) {
      for (String line : Files.readAllLines(file)) {
        String[] words = line.split(" ", -1);
        String content = words[3].isEmpty() ? "" : pseudonyms.carriedOn(words[3], words[0]);
        tombs.put(
            pseudonyms.carriedOn(words[1], words[0]),
            new Tomb(Integer.parseInt(words[2]), content));
      }
    }
    return new Withdrawn(file, tombs);
  }

  @Nullable Tomb of(String submission) {
    return tombs.get(submission);
  }

  void add(String submission, int revision, String content) {
    tombs.merge(
        submission,
        new Tomb(revision, content),
        (old, now) ->
            new Tomb(
                Math.max(old.revision(), now.revision()),
                now.content().isEmpty() ? old.content() : now.content()));
    changed = true;
  }

  /** A later revision came with a new consent. */
  void forget(String submission) {
    tombs.remove(submission);
    changed = true;
  }

  void save(Change change, String keyId) throws IOException {
    if (!changed) {
      return;
    }
    StringBuilder text = new StringBuilder();
    tombs.forEach(
        (submission, tomb) ->
            text.append(keyId)
                .append(' ')
                .append(submission)
                .append(' ')
                .append(tomb.revision())
                .append(' ')
                .append(tomb.content())
                .append('\n'));
    change.put(file, text.toString());
    changed = false;
  }
}
