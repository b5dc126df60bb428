package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Waits until what was written outlives the power: what is acknowledged must be there after it. */
public final class OnDisk {

  private OnDisk() {}

  /** The content of a file. */
  public static void content(Path file) throws IOException {
    force(file, StandardOpenOption.WRITE);
  }

  /** The name of a file in its directory, where the system lets a directory be written out. */
  public static void name(Path file) throws IOException {
    Path directory = file.toAbsolutePath().getParent();
    if (directory != null && Files.getFileStore(directory).supportsFileAttributeView("posix")) {
      force(directory, StandardOpenOption.READ);
    }
  }

  private static void force(Path path, StandardOpenOption how) throws IOException {
    try (FileChannel channel = FileChannel.open(path, how)) {
      channel.force(true);
    }
  }
}
