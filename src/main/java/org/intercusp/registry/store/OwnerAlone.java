package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** Directories and files that nobody but their owner can look into. */
public final class OwnerAlone {

  private OwnerAlone() {}

  /** Makes it where it is missing, and closes it to others. */
  public static void directory(Path directory) throws IOException {
    Files.createDirectories(directory);
    allow(directory, "rwx------");
  }

  /** Closes a file to others. */
  static void file(Path file) throws IOException {
    allow(file, "rw-------");
  }

  private static void allow(Path path, String permissions) throws IOException {
    if (path.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(permissions));
    }
  }
}
