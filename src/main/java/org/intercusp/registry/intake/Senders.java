package org.intercusp.registry.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.intercusp.registry.store.OnDisk;
import org.intercusp.registry.store.OwnerAlone;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/**
 * For whom one who hands outcomes in may speak. What they submit for others is refused, and what
 * others submitted is neither replaced nor withdrawn by them.
 *
 * @param names {@code system|value} of the submitters; absent: whichever, as where nobody logs in
 */
public record Senders(@Nullable Set<String> names) {

  /** Whoever it is said to be. */
  public static final Senders ANYBODY = new Senders(null);

  public Senders {
    names = names == null ? null : Set.copyOf(names);
  }

  /** Those of these identifiers. */
  public static Senders of(Set<Identifier> submitters) {
    return new Senders(submitters.stream().map(Senders::name).collect(Collectors.toSet()));
  }

  static String name(Identifier submitter) {
    return submitter.system() + "|" + submitter.value();
  }

  /** Whether there is none for whom they may speak. */
  public boolean isNobody() {
    return names != null && names.isEmpty();
  }

  boolean include(Identifier submitter) {
    return names == null || names.contains(name(submitter));
  }

  /** Whether what they handed in is of nobody but these. */
  boolean isWithin(Senders others) {
    return others.names == null || (names != null && others.names.containsAll(names));
  }

  /** Keeps them beside the submission, which may be loaded after the next start only. */
  void write(Path directory, String id) throws IOException {
    if (names != null) {
      OwnerAlone.directory(directory);
      Path file = Files.write(directory.resolve(id), new TreeSet<>(names));
      // Without this file whoever handed it in might speak for anybody.
      OnDisk.content(file);
      OnDisk.name(file);
    }
  }

  static Senders read(Path directory, String id) throws IOException {
    Path file = directory.resolve(id);
    return Files.exists(file) ? new Senders(Set.copyOf(Files.readAllLines(file))) : ANYBODY;
  }
}
