package org.intercusp.archive;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;

/** A backup in a file: checked, and brought back into a data directory. */
public final class BackupFile {

  /** The name of the database's file in a data directory, and its only entry. */
  public static final String DATABASE = "intercusp.mv.db";

  private BackupFile() {}

  /**
   * Reads it through to its end.
   *
   * @throws IOException when it is damaged or is no backup
   */
  public static void check(Path file) throws IOException {
    try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(file))) {
      only(zip);
      zip.transferTo(OutputStream.nullOutputStream());
    }
  }

  /**
   * Brings it back.
   *
   * @param directory a data directory without a database; made where it is missing
   * @throws IOException when there is a database already, or the file is damaged or is no backup;
   *     the directory then has no database
   */
  public static void restore(Path file, Path directory) throws IOException {
    Path database = directory.resolve(DATABASE);
    if (Files.exists(database)) {
      throw new IOException("there is a database already: " + database);
    }
    Files.createDirectories(directory);
    alone(directory, "rwx------");
    Path part = Files.createTempFile(directory, "restore-", ".part");
    try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(file))) {
      only(zip);
      Files.copy(zip, part, StandardCopyOption.REPLACE_EXISTING);
      alone(part, "rw-------");
      Files.move(part, database, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /**
   * Keeps what a service hands over, as a file that its owner alone may read.
   *
   * @throws IOException when there is such a file already, or what was handed over is no backup
   */
  public static void keep(InputStream backup, Path file) throws IOException {
    if (Files.exists(file)) {
      throw new IOException("there is such a file already: " + file);
    }
    Path directory = file.toAbsolutePath().getParent();
    Path part = Files.createTempFile(directory, "backup-", ".part");
    try {
      Files.copy(backup, part, StandardCopyOption.REPLACE_EXISTING);
      alone(part, "rw-------");
      check(part);
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static void only(ZipInputStream zip) throws IOException {
    ZipEntry entry = zip.getNextEntry();
    if (entry == null || !entry.getName().equals(DATABASE)) {
      throw new ZipException("this is no backup of ours");
    }
  }

  private static void alone(Path path, String mode) throws IOException {
    if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
      Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(mode));
    }
  }
}
