package org.intercusp.app;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import java.util.Set;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.core.env.MapPropertySource;
import org.springframework.web.context.WebApplicationContext;

/**
 * Makes the data directory before anything is put into it, readable by its owner alone. A directory
 * that cannot be made stops the start. Commands have no data directory.
 */
public final class DataDirectory
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  private static final Set<PosixFilePermission> OWNER_ALONE =
      PosixFilePermissions.fromString("rwx------");

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    String configured = context.getEnvironment().getProperty("intercusp.data");
    if (context instanceof WebApplicationContext && configured != null) {
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
      Files.createDirectories(directory);
      if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
        Files.setPosixFilePermissions(directory, OWNER_ALONE);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("intercusp.data cannot be used: " + directory, e);
    }
  }
}
