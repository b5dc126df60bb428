package org.intercusp.house;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The checks on source text: what a class file no longer shows. Each returns its faults. */
final class SourceRules {

  /** Files stay below this many lines; common practice of this house, no source. */
  static final int LINES = 320;

  private static final Pattern LOMBOK = Pattern.compile("(?m)^import (static )?lombok\\.");
  private static final Pattern MARKED =
      Pattern.compile("(?s)/\\*\\*.*\\w.*\\*/\\s*@(org\\.jspecify\\.annotations\\.)?NullMarked\\s");

  private SourceRules() {}

  static List<String> tooLong(Path root) {
    return faults(root, text -> text.lines().count() >= LINES, "has " + LINES + " lines or more");
  }

  static List<String> lombok(Path root) {
    return faults(root, text -> LOMBOK.matcher(text).find(), "imports Lombok");
  }

  /** Every folder with sources has a package-info with a sentence and the null mark. */
  static List<String> unmarkedPackages(Path root) {
    Map<Path, List<Path>> folders =
        sources(root).stream()
            .collect(Collectors.groupingBy(Path::getParent, TreeMap::new, Collectors.toList()));
    List<String> faults = new ArrayList<>();
    folders.forEach(
        (folder, files) -> {
          Path info = folder.resolve("package-info.java");
          if (!files.contains(info)) {
            faults.add(folder + " has no package-info.java");
          } else if (!MARKED.matcher(read(info)).find()) {
            faults.add(info + " lacks a sentence or @NullMarked");
          }
        });
    return faults;
  }

  static List<Path> sources(Path root) {
    try (Stream<Path> walk = Files.walk(root)) {
      return walk.filter(path -> path.toString().endsWith(".java")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> faults(Path root, Predicate<String> faulty, String said) {
    return sources(root).stream()
        .filter(path -> faulty.test(read(path)))
        .map(path -> path + " " + said)
        .toList();
  }

  private static String read(Path path) {
    try {
      return Files.readString(path);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
