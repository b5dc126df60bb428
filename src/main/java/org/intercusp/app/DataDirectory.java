package org.intercusp.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.MapPropertySource;
import org.springframework.web.context.WebApplicationContext;

/**
 * Makes the data directory before anything is put into it, readable by its owner alone. A directory
 * that cannot be made, or that is open to others because it is for other things, stops the start.
 * Commands have no data directory.
 */
public final class DataDirectory
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  private static final Set<PosixFilePermission> OWNER_ALONE =
      PosixFilePermissions.fromString("rwx------");

  /** One of these is in each that was used before, or in a disk just mounted. */
  private static final Set<String> OURS =
      Set.of("intercusp.mv.db", "registry", "pseudonyms.keys", "exports", "lost+found");

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    String configured = context.getEnvironment().getProperty("intercusp.data");
    if (context instanceof WebApplicationContext && configured != null) {
      // The empty path is the directory the program was started in, often that of the whole system.
      if (configured.isBlank()) {
        throw new IllegalArgumentException("intercusp.data is empty; it names a directory");
      }
      Path directory = Path.of(configured).toAbsolutePath();
      make(directory);
      // The embedded database takes no path that is relative to where the program was started.
      Map<String, Object> absolute = Map.of("intercusp.data", directory.toString());
      context
          .getEnvironment()
          .getPropertySources()
          .addFirst(new MapPropertySource("data directory", absolute));
    }
  }

  static void make(Path directory) {
    try {
      boolean there = Files.exists(directory, LinkOption.NOFOLLOW_LINKS);
      if (there && !Files.isDirectory(directory)) {
        throw refused(directory, "it is there already, and no directory");
      }
      Files.createDirectories(directory);
      if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
        close(directory);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("intercusp.data cannot be used", e);
    }
  }

  private static void close(Path directory) throws IOException {
    if (Files.getPosixFilePermissions(directory).equals(OWNER_ALONE)) {
      return;
    }
    String owner = Files.getOwner(directory).getName();
    String we = System.getProperty("user.name");
    if (!owner.equals(we) && !"root".equals(we)) {
      throw refused(
          directory,
          "it belongs to %s, and this runs as %s; name one that is %s's own, which may be below it"
              .formatted(owner, we, we));
    }
    if (isForOtherThings(directory)) {
      throw refused(
          directory,
          "it holds other things and is open to others; name a directory of its own, or close it"
              + " (chmod 700)");
    }
    Files.setPosixFilePermissions(directory, OWNER_ALONE);
  }

  /** Closing {@code /tmp} or a home to everybody else would harm more than it protects. */
  private static boolean isForOtherThings(Path directory) throws IOException {
    try (Stream<Path> entries = Files.list(directory)) {
      List<String> names = entries.map(one -> one.getFileName().toString()).toList();
      return !names.isEmpty() && names.stream().noneMatch(OURS::contains);
    }
  }

  private static FileSystemException refused(Path directory, String why) {
    return new FileSystemException(directory.toString(), null, why);
  }
}
