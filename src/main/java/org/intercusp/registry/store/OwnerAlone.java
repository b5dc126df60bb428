package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;

/** Directories that nobody but their owner can look into. */
public final class OwnerAlone {

  private OwnerAlone() {}

  /** Makes it where it is missing, and closes it to others. */
  public static void directory(Path directory) throws IOException {
    Files.createDirectories(directory);
    if (directory.getFileSystem().supportedFileAttributeViews().contains("posix")) {
      Files.setPosixFilePermissions(directory, PosixFilePermissions.fromString("rwx------"));
    }
  }
}
