package org.intercusp.app.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import org.intercusp.fhir.version.Release;

/**
 * The general FHIR server that the build packages from {@code src/records-server}: a jar with its
 * libraries beside it, started with the Java that runs this program.
 *
 * @param jar the packaged server
 */
public record RecordsServerJar(Path jar) {

  /** How the server meets what is sent to it. */
  public enum Temper {
    /** Takes what parses, gives numbers as ids and lets a client choose its own. */
    PLAIN,
    /** Validates every write, gives UUIDs as ids and refuses ids from a client. */
    STRICT
  }

  /** The system property that names the jar where it is not where the build leaves it. */
  public static final String PROPERTY = "records.server.jar";

  private static final Path BUILT = Path.of("target/records-server/target/records-server.jar");

  /**
   * R4: 12 s on two idle cores, 35 s on crowded ones; R5 on very crowded ones 132 s (measured).
   * This is for worse.
   */
  private static final Duration PATIENCE = Duration.ofMinutes(5);

  /** The jar that {@link #PROPERTY} names, else the one the build leaves under {@code target}. */
  public static RecordsServerJar ofBuild() {
    String named = System.getProperty(PROPERTY);
    return new RecordsServerJar(named == null || named.isBlank() ? BUILT : Path.of(named));
  }

  /**
   * Starts a server on a free port and waits until it is ready.
   *
   * @param output the file that takes what it prints
   * @throws IOException when the jar is missing or the server does not become ready
   */
  public RecordsServer start(Temper temper, Path output) throws IOException {
    return start(temper, output, 0);
  }

  /**
   * The same on a port of the caller's choosing, who then knows the URL before it is ready.
   *
   * @param port 0 for any that is free
   * @throws IOException when the jar is missing or the server does not become ready
   */
  public RecordsServer start(Temper temper, Path output, int port) throws IOException {
    return start(Release.R4, temper, output, port);
  }

  /**
   * A plain server of a release, on a free port.
   *
   * @throws IOException when the jar is missing or the server does not become ready
   */
  public RecordsServer start(Release release, Path output) throws IOException {
    return start(release, Temper.PLAIN, output, 0);
  }

  private RecordsServer start(Release release, Temper temper, Path output, int port)
      throws IOException {
    if (!Files.isRegularFile(jar)) {
      throw new IOException("No records server at " + jar + ": package it with mvn verify");
    }
    return RecordsServer.start(command(release, temper, port), output, PATIENCE);
  }

  private List<String> command(Release release, Temper temper, int port) {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        // Measured: ready in 12 s with 560 MB, where the defaults take 820 MB and no less time.
        "-Xmx1g",
        "-XX:+UseSerialGC",
        "-XX:TieredStopAtLevel=1",
        "-jar",
        jar.toString(),
        "--server.port=" + port,
        "--records.temper=" + temper.name().toLowerCase(Locale.ROOT),
        "--records.release=" + release.number());
  }
}
