package org.intercusp.app.demo;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A FHIR records server: a child process on the loopback interface, or one that is already there.
 *
 * <p>A child announces itself by one line, {@code records server ready at URL}, and ends when its
 * standard input does. This process holds that input open, so the child cannot outlive it, however
 * it ends. What the child prints goes to a file. A child that dies or stays silent past its time is
 * refused with the end of that file.
 */
public final class RecordsServer implements AutoCloseable {

  private static final Pattern READY =
      Pattern.compile("^records server ready at (http://\\S+)$", Pattern.MULTILINE);

  /** How often the child's output is looked at; common practice, no source. */
  private static final long GLANCE_MILLIS = 50;

  /** How long a child may take to see the end of its input; common practice, no source. */
  private static final long FAREWELL_SECONDS = 2;

  /** How much of a failed child's output is shown, in characters; common practice, no source. */
  private static final int LAST_WORDS = 2_000;

  private final URI baseUrl;
  private final Duration startUp;
  private final @Nullable Process child;

  private RecordsServer(URI baseUrl, Duration startUp, @Nullable Process child) {
    this.baseUrl = baseUrl;
    this.startUp = startUp;
    this.child = child;
  }

  /** A server that somebody else runs: nothing is started and closing leaves it alone. */
  public static RecordsServer at(URI baseUrl) {
    return new RecordsServer(baseUrl, Duration.ZERO, null);
  }

  /**
   * Starts a server and waits until it is ready.
   *
   * @param command program and arguments of a child that keeps to the rules above
   * @param output the file that takes what the child prints; its folder is made when missing
   * @param patience how long the child may take to become ready
   * @throws IOException when the child cannot be started, ends early or is not ready in time
   */
  public static RecordsServer start(List<String> command, Path output, Duration patience)
      throws IOException {
    Path folder = output.toAbsolutePath().getParent();
    if (folder != null) {
      Files.createDirectories(folder);
    }
    long begin = System.nanoTime();
    Process child =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(output.toFile())
            .start();
    try {
      URI baseUrl = awaitReady(child, output, begin + patience.toNanos());
      return new RecordsServer(baseUrl, Duration.ofNanos(System.nanoTime() - begin), child);
    } catch (IOException | RuntimeException e) {
      child.destroyForcibly();
      throw e;
    }
  }

  private static URI awaitReady(Process child, Path output, long deadline) throws IOException {
    while (true) {
      boolean alive = child.isAlive();
      Optional<URI> ready = announcement(output);
      if (ready.isPresent()) {
        return ready.get();
      }
      if (!alive) {
        throw failure("ended with exit code " + child.exitValue(), output);
      }
      if (System.nanoTime() - deadline > 0) {
        throw failure("was not ready in time", output);
      }
      pause();
    }
  }

  private static Optional<URI> announcement(Path output) throws IOException {
    Matcher line = READY.matcher(text(output));
    return line.find() ? Optional.of(URI.create(line.group(1))) : Optional.empty();
  }

  private static IOException failure(String what, Path output) throws IOException {
    String said = text(output);
    String end = said.substring(Math.max(0, said.length() - LAST_WORDS));
    return new IOException("The records server " + what + ". Its output, " + output + ":\n" + end);
  }

  private static String text(Path output) throws IOException {
    return new String(Files.readAllBytes(output), StandardCharsets.UTF_8);
  }

  private static void pause() throws IOException {
    try {
      Thread.sleep(GLANCE_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("Interrupted while waiting for the records server", e);
    }
  }

  /** The FHIR base URL, without a closing slash. */
  public URI baseUrl() {
    return baseUrl;
  }

  /** The time from starting the child to its being ready; zero for a server already there. */
  public Duration startUp() {
    return startUp;
  }

  /** The child's process id, where there is a child. */
  public Optional<Long> pid() {
    return Optional.ofNullable(child).map(Process::pid);
  }

  /** Ends the child; more than once does no harm. */
  @Override
  public void close() {
    if (child == null) {
      return;
    }
    try {
      child.getOutputStream().close();
      if (!child.waitFor(FAREWELL_SECONDS, TimeUnit.SECONDS)) {
        child.destroyForcibly();
      }
    } catch (IOException e) {
      child.destroyForcibly();
    } catch (InterruptedException e) {
      child.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
