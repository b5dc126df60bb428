package org.intercusp.registry.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.intercusp.finding.FaultPlace;
import org.intercusp.registry.store.OnDisk;
import org.intercusp.registry.store.OwnerAlone;
import org.intercusp.registry.store.RefusedLine;
import org.intercusp.registry.store.StoreFault;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What is submitted over HTTP: put down as it comes, bounded in size and number, then loaded one
 * after the other. What a stop of the service leaves is loaded after its next start.
 */
public final class OutcomeInbox implements AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(OutcomeInbox.class);

  /** How many may wait; common practice, no source. */
  private static final int MOST_WAITING = 200;

  /** Until a load that could not begin is tried again; common practice, no source. */
  private static final int AGAIN_SECONDS = 20;

  private static final Pattern ID = Pattern.compile("[hb]-[0-9a-f-]{36}");

  private final OutcomeIntake intake;
  private final RegistryPlace place;
  private final long largest;
  private final ScheduledExecutorService worker = Executors.newSingleThreadScheduledExecutor();

  /**
   * An inbox.
   *
   * @param largest bytes of one submission
   */
  public OutcomeInbox(OutcomeIntake intake, long largest) {
    this.intake = intake;
    this.place = intake.place();
    this.largest = largest;
    for (String id : waiting()) {
      worker.execute(() -> load(id));
    }
  }

  /** What became of a submission. */
  public sealed interface Receipt {
    /** It waits or is loaded already; its id is where to ask. */
    record Received(String id) implements Receipt {}

    /** It has more bytes than are taken. */
    record TooLarge(long largest) implements Receipt {}

    /** Too many wait. */
    record Full() implements Receipt {}
  }

  /**
   * Puts a submission of NDJSON down and lets it be loaded.
   *
   * @param senders for whom who hands it in may speak
   */
  public Receipt receive(InputStream body, Senders senders) throws IOException {
    if (waiting().size() >= MOST_WAITING) {
      return new Receipt.Full();
    }
    OwnerAlone.directory(place.root());
    OwnerAlone.directory(place.inbox());
    String id = "h-" + UUID.randomUUID();
    Path coming = place.inbox().resolve(id + ".coming");
    try {
      if (!copied(body, coming)) {
        return new Receipt.TooLarge(largest);
      }
      intake.witness().received(id);
      senders.write(place.senders(), id);
      OnDisk.content(coming);
      Files.move(coming, place.inbox().resolve(id), StandardCopyOption.ATOMIC_MOVE);
      OnDisk.name(place.inbox().resolve(id));
    } finally {
      Files.deleteIfExists(coming);
    }
    worker.execute(() -> load(id));
    return new Receipt.Received(id);
  }

  private boolean copied(InputStream body, Path to) throws IOException {
    byte[] buffer = new byte[1 << 16];
    long copied = 0;
    try (OutputStream out = Files.newOutputStream(to)) {
      int read = body.read(buffer);
      while (read >= 0) {
        copied += read;
        if (copied > largest) {
          return false;
        }
        out.write(buffer, 0, read);
        read = body.read(buffer);
      }
    }
    return true;
  }

  private List<String> waiting() {
    List<String> ids = new ArrayList<>();
    if (Files.isDirectory(place.inbox())) {
      try (DirectoryStream<Path> files = Files.newDirectoryStream(place.inbox(), "h-*")) {
        for (Path file : files) {
          String name = file.getFileName().toString();
          if (ID.matcher(name).matches()) {
            ids.add(name);
          }
        }
      } catch (IOException e) {
        throw new UncheckedIOException("the inbox of the registry cannot be read", e);
      }
    }
    return ids;
  }

  // What is thrown is told below; nobody waits for the answer.
  @SuppressWarnings("FutureReturnValueIgnored")
  private void load(String id) {
    try {
      if (Files.exists(place.inbox().resolve(id))) {
        loadOrEnd(id);
      }
    } catch (IOException | UncheckedIOException | StoreFault e) {
      LOG.warn("submission {} waits: {}", id, FaultPlace.of(e));
      if (!worker.isShutdown()) {
        worker.schedule(() -> load(id), AGAIN_SECONDS, TimeUnit.SECONDS);
      }
    }
  }

  /** What breaks on the submission itself would break on it at every start. */
  private void loadOrEnd(String id) throws IOException {
    try {
      intake.loadInbox(id);
    } catch (UncheckedIOException | StoreFault e) {
      throw e;
    } catch (RuntimeException | Error e) {
      LOG.warn("submission {} failed: {}", id, FaultPlace.of(e));
      intake.endInbox(id);
    }
  }

  /**
   * Where a submission stands; empty where there is none of this id.
   *
   * @param senders for whom who asks may speak: what others handed in is not there for them
   */
  public Optional<LoadStatus> status(String id, Senders senders) throws IOException {
    if (!ID.matcher(id).matches() || !Senders.read(place.senders(), id).isWithin(senders)) {
      return Optional.empty();
    }
    Optional<LoadStatus> known = LoadStatus.read(LoadStatus.file(place.loads(), id));
    if (known.isPresent() || Files.notExists(place.inbox().resolve(id))) {
      // It may have been loaded between the two looks.
      return known.isPresent() ? known : LoadStatus.read(LoadStatus.file(place.loads(), id));
    }
    return Optional.of(
        LoadStatus.begun(
            id, OutcomeIntake.HTTP, LoadStatus.State.WAITING, intake.clock().instant()));
  }

  /** What was refused of it, as lines of JSON, at most so many. */
  public List<String> refusals(String id, int most) throws IOException {
    List<String> lines = new ArrayList<>();
    List<Path> files = new ArrayList<>();
    if (ID.matcher(id).matches() && Files.isDirectory(place.loads())) {
      String name = id + "-*" + RefusedLine.SUFFIX;
      try (DirectoryStream<Path> all = Files.newDirectoryStream(place.loads(), name)) {
        all.forEach(files::add);
      }
    }
    for (Path file : files.stream().sorted().toList()) {
      try (BufferedReader reader = Files.newBufferedReader(file)) {
        String line = lines.size() < most ? reader.readLine() : null;
        while (line != null) {
          lines.add(RefusedLine.forPeople(line));
          line = lines.size() < most ? reader.readLine() : null;
        }
      }
    }
    return lines;
  }

  @Override
  public void close() {
    worker.shutdown();
  }
}
