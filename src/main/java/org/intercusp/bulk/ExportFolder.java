package org.intercusp.bulk;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where the files of exports stand: a directory an attempt, readable by its owner alone. A file is
 * there whole or not at all.
 */
final class ExportFolder {

  private static final Pattern ATTEMPT = Pattern.compile("([0-9a-f-]{36})-([0-9]{1,9})");
  private static final String UNFINISHED = ".unfinished";

  private final Path root;

  ExportFolder(Path root) {
    this.root = root.toAbsolutePath().normalize();
  }

  /** What writes a file's lines. */
  interface Writing {
    void write(OutputStream out) throws IOException;
  }

  private Path place(ExportJob job) {
    return root.resolve(job.id() + "-" + job.attempt());
  }

  /** A finished file of the attempt that counts. */
  Path file(ExportJob job, ExportJob.Output output) {
    return place(job).resolve(output.file());
  }

  void write(ExportJob job, String type, Writing writing) throws IOException {
    make(root);
    Path place = place(job);
    make(place);
    Path file = place.resolve(new ExportJob.Output(type, 0).file());
    Path unfinished = place.resolve(file.getFileName() + UNFINISHED);
    Files.deleteIfExists(unfinished);
    Files.createFile(unfinished, alone(unfinished, "rw-------"));
    try (OutputStream out = Files.newOutputStream(unfinished, StandardOpenOption.WRITE)) {
      writing.write(out);
    }
    Files.move(
        unfinished, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private static void make(Path directory) throws IOException {
    if (!Files.isDirectory(directory)) {
      Files.createDirectories(directory, alone(directory, "rwx------"));
    }
  }

  private static FileAttribute<?>[] alone(Path path, String rights) {
    return path.getFileSystem().supportedFileAttributeViews().contains("posix")
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(rights))
        }
        : new FileAttribute<?>[] {};
  }

  void remove(ExportJob job) throws IOException {
    remove(place(job));
  }

  /**
   * Removes what belongs to no attempt that counts.
   *
   * @param attempts which those are; asked after the directories are listed, since a row is there
   *     before its directory
   */
  void keepOnly(Supplier<Map<String, Integer>> attempts) throws IOException {
    if (!Files.isDirectory(root)) {
      return;
    }
    List<Path> there = new ArrayList<>();
    try (DirectoryStream<Path> places = Files.newDirectoryStream(root)) {
      places.forEach(there::add);
    }
    Map<String, Integer> counting = attempts.get();
    for (Path place : there) {
      Matcher name = ATTEMPT.matcher(place.getFileName().toString());
      if (name.matches()
          && counting.getOrDefault(name.group(1), -1) != Integer.parseInt(name.group(2))) {
        remove(place);
      }
    }
  }

  private static void remove(Path place) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(place)) {
      for (Path file : files) {
        Files.deleteIfExists(file);
      }
    } catch (NoSuchFileException e) {
      return; // Somebody else removed it.
    }
    Files.deleteIfExists(place);
  }
}
