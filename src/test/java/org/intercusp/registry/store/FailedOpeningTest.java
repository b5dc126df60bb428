package org.intercusp.registry.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.intercusp.registry.privacy.KeyRing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A store that cannot be opened is tried again every few seconds: nothing may stay of each try. */
class FailedOpeningTest {

  private static final Path THREADS = Path.of("/proc/self/task");

  @TempDir Path folder;

  @Test
  void theEngineIsClosedAndTheLockGivenBack() throws IOException {
    assumeTrue(Files.isDirectory(THREADS), "native threads are counted where Linux shows them");
    Path root = folder.resolve("registry");
    Path unreadable = Files.createDirectories(root.resolve("withdrawn"));
    KeyRing keys = KeyRing.open(folder.resolve("keys"));
    // The first one makes what the engine keeps for good.
    fails(root, keys);
    long before = threads();

    for (int i = 0; i < 20; i++) {
      fails(root, keys);
    }

    // Each engine has a thread of its own for every core but one.
    assertThat(threads()).isLessThan(before + 10);
    Files.delete(unreadable);
    CaseStore.open(root, () -> keys).close();
  }

  private static void fails(Path root, KeyRing keys) {
    assertThatThrownBy(() -> CaseStore.open(root, () -> keys))
        .isInstanceOf(StoreFault.class)
        .hasCauseInstanceOf(IOException.class);
  }

  private static long threads() throws IOException {
    try (Stream<Path> all = Files.list(THREADS)) {
      return all.count();
    }
  }
}
