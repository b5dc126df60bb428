package org.intercusp.registry.report;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A process of Spark's own from what the build has of it, as the scripts of its package start it.
 */
record SparkProcess(Process process, Path log) implements AutoCloseable {

  /** Where the build puts the job. */
  static final Path BUILT = Path.of("target/spark-report/target");

  /** Stands for an installed Spark. */
  static final Path HOME = BUILT.resolve("home");

  /** What Spark opens for itself on Java 17 (its own JavaModuleOptions). */
  private static final List<String> OPENED =
      List.of(
          "java.lang",
          "java.lang.invoke",
          "java.lang.reflect",
          "java.io",
          "java.net",
          "java.nio",
          "java.util",
          "java.util.concurrent",
          "java.util.concurrent.atomic",
          "jdk.internal.ref",
          "sun.nio.ch",
          "sun.nio.cs",
          "sun.security.action",
          "sun.util.calendar");

  /** Starts a process; {@code home} is made where it is missing. */
  static SparkProcess start(Path home, String name, String main, List<String> arguments)
      throws IOException {
    String jars = jars(home) + "/*";
    Path log = home.resolve(name + ".log");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    OPENED.forEach(each -> command.add("--add-opens=java.base/" + each + "=ALL-UNNAMED"));
    command.addAll(List.of("-Xmx1g", "-cp", jars, main));
    command.addAll(arguments);
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("SPARK_HOME", home.toAbsolutePath().toString());
    builder.environment().put("SPARK_LOCAL_IP", "127.0.0.1");
    builder.environment().put("SPARK_SCALA_VERSION", "2.13");
    return new SparkProcess(
        builder.redirectErrorStream(true).redirectOutput(log.toFile()).start(), log);
  }

  /** Links to Spark's libraries: workers look for them there. */
  private static Path jars(Path home) throws IOException {
    Path jars = home.resolve("jars").toAbsolutePath();
    if (Files.notExists(jars)) {
      // Read first: where it is not built yet, no empty folder stays.
      String built = Files.readString(BUILT.resolve("spark.classpath"));
      Files.createDirectories(jars);
      for (String jar : built.strip().split(":")) {
        Path from = Path.of(jar);
        Files.createSymbolicLink(jars.resolve(from.getFileName()), from);
      }
    }
    return jars;
  }

  /** Waits for its end. */
  int exit() throws InterruptedException {
    if (!process.waitFor(10, TimeUnit.MINUTES)) {
      throw new IllegalStateException("Spark does not come to an end: " + tail());
    }
    return process.exitValue();
  }

  /** Waits until it has logged this. */
  void awaitLogged(String words) throws InterruptedException, IOException {
    long end = System.nanoTime() + TimeUnit.MINUTES.toNanos(2);
    while (!Files.readString(log).contains(words)) {
      if (!process.isAlive() || System.nanoTime() > end) {
        throw new IllegalStateException("Spark has not logged \"" + words + "\": " + tail());
      }
      Thread.sleep(100);
    }
  }

  String tail() {
    try {
      String text = Files.readString(log);
      return text.substring(Math.max(0, text.length() - 3000));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    process.descendants().forEach(ProcessHandle::destroyForcibly);
    process.destroyForcibly();
  }
}
