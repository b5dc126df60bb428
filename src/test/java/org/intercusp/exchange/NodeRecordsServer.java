package org.intercusp.exchange;

import java.io.IOException;
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

  private static void install() throws IOException {
    Files.createDirectories(INSTALLED);
    copy("before.mjs");
    copy("server.mjs");
    if (upToDate()) {
      return;
    }
    copy("package.json");
    copy(LOCK);
    Path log = INSTALLED.resolve("npm.log");
    List<String> npm = List.of("npm", "ci", "--omit=dev", "--no-audit", "--no-fund");
    int exit = run(npm, INSTALLED, log, INSTALLATION);
    if (exit != 0) {
      Files.deleteIfExists(INSTALLED.resolve(LOCK));
      throw Absence.of("npm ci ended with " + exit + ", see " + log);
    }
  }

  private static boolean upToDate() throws IOException {
    return Files.isDirectory(INSTALLED.resolve("node_modules"))
        && Files.isRegularFile(INSTALLED.resolve(LOCK))
        && Files.mismatch(SOURCE.resolve(LOCK), INSTALLED.resolve(LOCK)) == -1;
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
