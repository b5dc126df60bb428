package org.intercusp.registry.intake;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Clock;
import java.util.List;
import java.util.UUID;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.store.CaseExport;
import org.intercusp.registry.store.CaseStore;
import org.intercusp.registry.store.OwnerAlone;
import org.intercusp.registry.store.RefusedLine;
import org.intercusp.registry.store.StoreFault;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionWriter;

/**
 * Takes outcomes into the registry, one load after the other. A file that was interrupted goes on
 * where it stopped when the same file is loaded again, and nothing is counted twice; a file that
 * was loaded to its end is loaded again from its beginning, where all is the same. The service
 * fetches nothing that a submission names.
 */
public final class OutcomeIntake {

  /** The source of what is submitted over HTTP. */
  static final String HTTP = "http";

  private final RegistryPlace place;
  private final Clock clock;
  private final SubmissionWitness witness;

  /** For who runs a command for themselves: nobody keeps a record. */
  public OutcomeIntake(RegistryPlace place, Clock clock) {
    this(place, clock, SubmissionWitness.NONE);
  }

  /** An intake whose submissions somebody keeps a record of. */
  public OutcomeIntake(RegistryPlace place, Clock clock, SubmissionWitness witness) {
    this.place = place;
    this.clock = clock;
    this.witness = witness;
  }

  /** Loads a file of NDJSON. */
  public LoadStatus load(Path file, LoadListener listener, BooleanSupplier stop)
      throws IOException {
    BasicFileAttributes now = Files.readAttributes(file, BasicFileAttributes.class);
    String known = file.toRealPath() + "\n" + now.size() + "\n" + now.lastModifiedTime().toMillis();
    try (InputStream in = Files.newInputStream(file)) {
      return load(in, keys -> named(known, keys), "file", Senders.ANYBODY, listener, stop);
    }
  }

  private static String named(String file, KeyRing keys) {
    return "f-" + keys.pseudonyms().content(file.getBytes(StandardCharsets.UTF_8));
  }

  /** Loads NDJSON from a stream, which has no beginning to go back to. */
  public LoadStatus load(InputStream in, LoadListener listener, BooleanSupplier stop)
      throws IOException {
    String id = "s-" + UUID.randomUUID();
    return load(in, keys -> id, "stream", Senders.ANYBODY, listener, stop);
  }

  /**
   * Takes one submission, such as an outcome Bundle holds, and says what became of it.
   *
   * @param senders for whom the one who hands it in may speak
   */
  public LoadStatus take(Submission submission, Senders senders) throws IOException {
    byte[] line = new SubmissionWriter().write(submission);
    String id = "b-" + UUID.randomUUID();
    witness.received(id);
    return load(
        new ByteArrayInputStream(line),
        keys -> id,
        "bundle",
        senders,
        (status, refusals) -> {},
        () -> false);
  }

  /** Loads what lies in the inbox under this id, and deletes it there. */
  LoadStatus loadInbox(String id) throws IOException {
    Path file = place.inbox().resolve(id);
    LoadStatus done;
    try (InputStream in = Files.newInputStream(file)) {
      Senders senders = Senders.read(place.senders(), id);
      done = load(in, keys -> id, HTTP, senders, (status, refusals) -> {}, () -> false);
    }
    Files.delete(file);
    return done;
  }

  /** Ends what cannot be loaded as failed, and deletes it in the inbox. What is loaded stays. */
  synchronized void endInbox(String id) throws IOException {
    try (CaseStore store = opened()) {
      OwnerAlone.directory(place.loads());
      LoadStatus end = begun(id, HTTP).failed(LoadStatus.UNLOADABLE, clock.instant());
      tell(witness, end);
      store.take(
          List.of(), (texts, none) -> texts.put(LoadStatus.file(place.loads(), id), end.text()));
    }
    Files.delete(place.inbox().resolve(id));
  }

  // One writer at a time: the store refuses a second one.
  private synchronized LoadStatus load(
      InputStream in,
      Function<KeyRing, String> naming,
      String source,
      Senders senders,
      LoadListener listener,
      BooleanSupplier stop)
      throws IOException {
    try (CaseStore store = opened()) {
      OwnerAlone.directory(place.loads());
      LoadStatus status = begun(naming.apply(store.keys()), source);
      in.skipNBytes(status.bytes());
      return new OutcomeLoad(store, senders, place, clock, listener, witness, status).run(in, stop);
    }
  }

  /** Without a record nothing ends; what was written stays, and the end is tried again. */
  static void tell(SubmissionWitness witness, LoadStatus end) {
    try {
      witness.ending(end);
    } catch (RuntimeException e) {
      throw new StoreFault("the end of a load could not be recorded", e);
    }
  }

  /** The keys are read behind the store's lock, so that no two make the first one. */
  private CaseStore opened() {
    return CaseStore.open(place.root(), () -> KeyRing.open(place.keys()));
  }

  private LoadStatus begun(String id, String source) throws IOException {
    LoadStatus there = LoadStatus.read(LoadStatus.file(place.loads(), id)).orElse(null);
    if (there != null && !there.ended()) {
      return there;
    }
    if (there != null) {
      forget(id);
    }
    return LoadStatus.begun(id, source, LoadStatus.State.RUNNING, clock.instant());
  }

  private void forget(String id) throws IOException {
    try (DirectoryStream<Path> files =
        Files.newDirectoryStream(place.loads(), id + "-*" + RefusedLine.SUFFIX)) {
      for (Path file : files) {
        Files.delete(file);
      }
    }
    Files.delete(LoadStatus.file(place.loads(), id));
  }

  /** Adds a key and lays it over what is stored; the name of the key. */
  public synchronized String rotateKey() {
    try (CaseStore store = CaseStore.open(place.root(), () -> KeyRing.rotate(place.keys()))) {
      return store.keys().current();
    }
  }

  /**
   * Writes the current rows for statisticians, with their dictionary.
   *
   * @return how many rows
   */
  public synchronized long export(Path directory, CaseExport.Form form) {
    try (CaseStore store = opened()) {
      return store.export(directory, form);
    }
  }

  SubmissionWitness witness() {
    return witness;
  }

  RegistryPlace place() {
    return place;
  }

  Clock clock() {
    return clock;
  }
}
