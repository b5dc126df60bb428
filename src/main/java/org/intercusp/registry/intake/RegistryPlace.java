package org.intercusp.registry.intake;

import java.nio.file.Path;
import org.intercusp.registry.privacy.Reduction;

/**
 * Where a registry keeps its data and how far it reduces them.
 *
 * @param root the directory with {@code cases}, {@code loads} and what belongs to them
 * @param keys the file with the keys of the pseudonyms; best kept elsewhere than the data
 */
public record RegistryPlace(Path root, Path keys, Reduction reduction) {

  public RegistryPlace {
    root = root.toAbsolutePath().normalize();
  }

  /** Journals and refusals of loads. */
  Path loads() {
    return root.resolve("loads");
  }

  /** Who handed in what came over HTTP, where they log in. */
  Path senders() {
    return root.resolve("senders");
  }

  /** What was sent over HTTP and is not loaded yet; deleted as soon as it is. */
  Path inbox() {
    return root.resolve("inbox");
  }
}
