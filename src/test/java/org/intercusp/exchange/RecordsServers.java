package org.intercusp.exchange;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.stream.Stream;
import org.intercusp.app.demo.RecordsServer;
import org.intercusp.app.demo.RecordsServerJar;
import org.intercusp.fhir.version.Release;

/**
 * The records servers that the tests talk to. Each is started when first asked for, once for the
 * test JVM, and ends with it: whatever a test stores there, others may meet. With {@code
 * -Drecords.server=URL} that server is the only one and nothing is started.
 */
public enum RecordsServers {
  /** The general server that takes what parses. */
  PLAIN,
  /** The general server that validates writes, gives UUIDs and refuses ids from a client. */
  STRICT,
  /** Somebody else's implementation, where Node is. */
  ANOTHER,
  /** The general server as its makers publish it, in a container, where a Docker engine is. */
  CONTAINER,
  /** The one that {@code -Drecords.server} names. */
  GIVEN,
  /** The general server in R4B. Not among {@link #all()}, whose tests speak R4 to it themselves. */
  R4B,
  /** The general server in R5; not among {@link #all()} either. */
  R5;

  private static final String PROPERTY = "records.server";

  private static final Map<RecordsServers, RecordsServer> RUNNING =
      new EnumMap<>(RecordsServers.class);

  /** Those to test against, for a method source. */
  public static Stream<RecordsServers> all() {
    return given() ? Stream.of(GIVEN) : Stream.of(PLAIN, STRICT, ANOTHER, CONTAINER);
  }

  /** One of each implementation, for a method source; all of them with {@code -Plong}. */
  public static Stream<RecordsServers> implementations() {
    boolean all = given() || Boolean.getBoolean("intercusp.long");
    return all().filter(each -> all || each != STRICT);
  }

  /** Whether somebody named a server: then nothing is known of its temper. */
  public static boolean given() {
    return !System.getProperty(PROPERTY, "").isBlank();
  }

  /** The running server; skips the test where it cannot run on this machine. */
  public RecordsServer server() {
    synchronized (RUNNING) {
      return RUNNING.computeIfAbsent(this, RecordsServers::start);
    }
  }

  /** The FHIR base URL of the running server. */
  public URI baseUrl() {
    return server().baseUrl();
  }

  /**
   * Ends the one that looks through all it holds at every question, so that the next to ask meets
   * an empty one: a test costs several times as much after ten others.
   */
  public static void endWhatGrowsSlow() {
    synchronized (RUNNING) {
      RecordsServer slow = RUNNING.remove(ANOTHER);
      if (slow != null) {
        slow.close();
      }
    }
  }

  private RecordsServer start() {
    try {
      RecordsServer server =
          switch (this) {
            case PLAIN -> RecordsServerJar.ofBuild().start(RecordsServerJar.Temper.PLAIN, output());
            case STRICT ->
                RecordsServerJar.ofBuild().start(RecordsServerJar.Temper.STRICT, output());
            case ANOTHER -> NodeRecordsServer.start(output());
            case CONTAINER -> ContainerRecordsServer.start();
            case GIVEN -> RecordsServer.at(URI.create(System.getProperty(PROPERTY)));
            case R4B -> RecordsServerJar.ofBuild().start(Release.R4B, output());
            case R5 -> RecordsServerJar.ofBuild().start(Release.R5, output());
          };
      System.out.printf(
          "Records server %s at %s, ready after %.1f s%n",
          this, server.baseUrl(), server.startUp().toMillis() / 1000.0);
      return server;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  // A file for each test JVM: what a server prints there says where it is, and one that read the
  // line of another's server lost it when that JVM ended.
  private Path output() {
    String name = name().toLowerCase(java.util.Locale.ROOT);
    return Path.of(
        "target", "records-server-" + name + "-" + ProcessHandle.current().pid() + ".log");
  }
}
