package org.intercusp.exchange;

import static java.nio.file.StandardOpenOption.CREATE;
import static java.nio.file.StandardOpenOption.WRITE;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.intercusp.app.demo.RecordsServer;

/** The server of {@code src/test/node}, installed under {@code target/node} when Node is here. */
final class NodeRecordsServer {

  private static final Path SOURCE = Path.of("src/test/node");
  private static final Path INSTALLED = Path.of("target/node");
  private static final String LOCK = "package-lock.json";

  /** Written last, with what was installed: a half-made folder is never taken for a whole one. */
  private static final Path DONE = INSTALLED.resolve("installed");

  /** Oldest Node that was seen to run the library; it asks for 22 itself. */
  private static final int OLDEST_NODE = 20;

  private static final Duration INSTALLATION = Duration.ofMinutes(3);
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  private NodeRecordsServer() {}

  static RecordsServer start(Path output) throws IOException {
    return RecordsServer.start(command(), output, PATIENCE);
  }

  /** Installs what is not installed yet; skips the test where that cannot be. */
  static List<String> command() throws IOException {
    requireNode();
    install();
    return List.of("node", INSTALLED.resolve("server.mjs").toString());
  }

  private static void requireNode() throws IOException {
    Path version = Files.createTempFile("node", ".version");
    try {
      int exit = run(List.of("node", "--version"), Path.of("."), version, Duration.ofSeconds(20));
      String said = Files.readString(version).strip();
      if (exit != 0 || !said.matches("v\\d+\\..*")) {
        throw Absence.of("Node does not run here (" + said + "): no second FHIR implementation");
      }
      if (Integer.parseInt(said.substring(1, said.indexOf('.'))) < OLDEST_NODE) {
        throw Absence.of("Node is " + said + ", older than " + OLDEST_NODE);
      }
    } catch (IOException e) {
      throw Absence.of("Node is not here: no second FHIR implementation (" + e.getMessage() + ")");
    } finally {
      Files.deleteIfExists(version);
    }
  }

  /** Two test machines may come here at once: the first installs, the second waits for it. */
  private static void install() throws IOException {
    Files.createDirectories(INSTALLED);
    try (FileChannel gate = FileChannel.open(INSTALLED.resolve("installing"), CREATE, WRITE)) {
      gate.lock();
      if (!upToDate()) {
        Files.deleteIfExists(DONE);
        copy("before.mjs");
        copy("server.mjs");
        copy("package.json");
        copy(LOCK);
        npm();
        Files.writeString(DONE, wanted());
      }
    }
  }

  private static void npm() throws IOException {
    Path log = INSTALLED.resolve("npm.log");
    List<String> npm = List.of("npm", "ci", "--omit=dev", "--no-audit", "--no-fund");
    int exit = run(npm, INSTALLED, log, INSTALLATION);
    if (exit != 0) {
      throw Absence.of("npm ci ended with " + exit + ", see " + log);
    }
  }

  private static boolean upToDate() throws IOException {
    return Files.isRegularFile(DONE) && Files.readString(DONE).equals(wanted());
  }

  private static String wanted() throws IOException {
    StringBuilder all = new StringBuilder();
    for (String name : List.of("before.mjs", "server.mjs", "package.json", LOCK)) {
      all.append(Files.readString(SOURCE.resolve(name)));
    }
    return all.toString();
  }

  private static void copy(String name) throws IOException {
    Files.copy(SOURCE.resolve(name), INSTALLED.resolve(name), StandardCopyOption.REPLACE_EXISTING);
  }

  private static int run(List<String> command, Path folder, Path log, Duration patience)
      throws IOException {
    Process process =
        new ProcessBuilder(command)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    process.getOutputStream().close();
    try {
      if (process.waitFor(patience.toSeconds(), TimeUnit.SECONDS)) {
        return process.exitValue();
      }
      process.destroyForcibly();
      throw new IOException(String.join(" ", command) + " took longer than " + patience);
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
      throw new IOException(e);
    }
  }
}
