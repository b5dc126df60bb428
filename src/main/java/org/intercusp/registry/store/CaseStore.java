package org.intercusp.registry.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.privacy.Pseudonyms;
import org.jspecify.annotations.Nullable;

/**
 * The one writer of a registry's directory: {@code cases/part-*.parquet} with one row a current
 * submission, {@code loads/} with the journal of each load, {@code dead/} with rows that no longer
 * count until their files are rewritten, {@code withdrawn}. Refused: a directory that another
 * writer holds. Opening finishes what was cut short and lays new keys over what is stored. For one
 * thread.
 */
public final class CaseStore implements AutoCloseable {

  private final Path root;
  private final KeyRing keys;
  private final FileChannel lockFile;
  private final FileLock lock;
  private final Duck duck;
  private final Parts parts;
  private final Known known;
  private final Withdrawn withdrawn;
  private final Traces traces;
  private long next;

  private CaseStore(Path root, KeyRing keys, FileChannel lockFile, FileLock lock, Duck duck)
      throws IOException, SQLException {
    this.root = root;
    this.keys = keys;
    this.lockFile = lockFile;
    this.lock = lock;
    Change.recover(root);
    this.duck = duck;
    duck.run("CREATE TABLE batch (" + CaseColumns.declared() + ")");
    duck.run("CREATE TABLE dead (sequence BIGINT)");
    this.parts = new Parts(root, duck);
    this.known = new Known(duck, parts);
    Pseudonyms pseudonyms = keys.pseudonyms();
    this.withdrawn = Withdrawn.open(root.resolve("withdrawn"), pseudonyms);
    this.traces = new Traces(root.resolve("loads"), pseudonyms);
    readDead();
    settle();
    new Rekeying(root, duck, parts, keys).run();
    this.next = duck.number("SELECT coalesce(max(sequence), 0) + 1 FROM " + parts.from());
  }

  /**
   * Opens a directory, which is made where it is missing.
   *
   * @param keys asked once nobody else writes: who waited would come with keys that another has
   *     since laid a newer one over
   * @throws UncheckedIOException where there can be no such directory
   * @throws StoreFault where another writer has it, or it cannot be read
   */
  public static CaseStore open(Path directory, Supplier<KeyRing> keys) {
    Path root = made(directory);
    // Whoever comes after a failure tries again for long: nothing may stay open of each try.
    List<AutoCloseable> open = new ArrayList<>();
    try {
      FileChannel channel =
          FileChannel.open(
              root.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
      open.add(channel);
      FileLock lock = lock(channel);
      if (lock == null) {
        throw new StoreFault("another process is writing to " + root, null);
      }
      Duck duck = new Duck(root.resolve("spill"));
      open.add(0, duck);
      return new CaseStore(root, keys.get(), channel, lock, duck);
    } catch (IOException | SQLException e) {
      throw closed(open, new StoreFault("the registry's store cannot be used: " + root, e));
    } catch (RuntimeException e) {
      throw closed(open, e);
    }
  }

  /** The fault, after these were closed; what fails meanwhile is told with it. */
  private static RuntimeException closed(List<AutoCloseable> open, RuntimeException fault) {
    close(open).ifPresent(fault::addSuppressed);
    return fault;
  }

  /** Closes each of these, whatever becomes of the one before; the first fault, if any. */
  private static Optional<Exception> close(List<AutoCloseable> open) {
    Exception first = null;
    for (AutoCloseable one : open) {
      try {
        one.close();
      } catch (Exception e) {
        first = first == null ? e : first;
      }
    }
    return Optional.ofNullable(first);
  }

  private static Path made(Path directory) {
    Path root = directory.toAbsolutePath().normalize();
    try {
      OwnerAlone.directory(root);
      return root;
    } catch (IOException e) {
      throw new UncheckedIOException("the registry's directory cannot be used", e);
    }
  }

  private static @Nullable FileLock lock(FileChannel channel) throws IOException {
    try {
      return channel.tryLock();
    } catch (OverlappingFileLockException e) {
      return null;
    }
  }

  /**
   * Takes a batch and writes it together with the journal, all or nothing.
   *
   * @param journal makes the journal's text from the verdicts
   */
  public List<Verdict> take(List<Entry> entries, Journalling journal) {
    try {
      Decision decision = new Deciding(known.of(entries), withdrawn).decide(entries);
      Change change = new Change(root);
      long first = next;
      for (List<@Nullable Object> row : decision.rows()) {
        row.set(2, next++);
      }
      if (!decision.rows().isEmpty()) {
        duck.append("batch", RowOrder.of(decision.rows()));
        parts.write(change, "SELECT * FROM batch", first);
        known.add();
        duck.run("TRUNCATE batch");
      }
      bookDead(change, decision.dead(), first);
      withdrawn.save(change, keys.current());
      traces.scrub(change, decision.gone());
      journal.write(
          (file, text) -> change.put(file, traces.without(decision.gone(), file, text)),
          decision.verdicts());
      change.commit();
      return decision.verdicts();
    } catch (IOException | SQLException e) {
      throw new StoreFault("a batch could not be written", e);
    }
  }

  /** Where a batch's journal is written. */
  public interface Journalling {
    /** Puts the files that change with the batch. */
    void write(Texts texts, List<Verdict> verdicts) throws IOException;

    /** Takes the new text of a file. */
    interface Texts {
      void put(Path target, String text) throws IOException;
    }
  }

  private void bookDead(Change change, List<Long> dead, long at) throws IOException, SQLException {
    if (!dead.isEmpty()) {
      duck.append("dead", dead.stream().map(List::of).toList());
      StringBuilder text = new StringBuilder();
      dead.forEach(sequence -> text.append(sequence).append('\n'));
      change.put(root.resolve("dead").resolve("dead-" + at + "-" + dead.get(0)), text.toString());
    }
  }

  private void readDead() throws IOException, SQLException {
    Path dead = root.resolve("dead");
    if (Files.isDirectory(dead)) {
      try (var files = Files.newDirectoryStream(dead)) {
        for (Path file : files) {
          duck.append(
              "dead",
              Files.readAllLines(file).stream().map(line -> List.of(Long.valueOf(line))).toList());
        }
      }
    }
  }

  /** Rewrites the files so that they hold current rows alone, and puts small ones together. */
  public void settle() {
    try {
      Change change = new Change(root);
      parts.bury(change);
      Path dead = root.resolve("dead");
      if (Files.isDirectory(dead)) {
        try (var files = Files.newDirectoryStream(dead)) {
          files.forEach(change::delete);
        }
      }
      if (!change.isEmpty()) {
        change.commit();
        duck.run("TRUNCATE dead");
      }
      parts.merge();
    } catch (IOException | SQLException e) {
      throw new StoreFault("the files could not be settled", e);
    }
  }

  /** What its pseudonyms are made with. */
  public KeyRing keys() {
    return keys;
  }

  /** How many cases there are. */
  public long size() {
    try {
      return duck.number("SELECT count(*) FROM " + parts.from())
          - duck.number("SELECT count(*) FROM dead");
    } catch (IOException | SQLException e) {
      throw new StoreFault("the cases could not be counted", e);
    }
  }

  /**
   * Writes the current rows and their dictionary into a directory.
   *
   * @return how many rows
   */
  public long export(Path directory, CaseExport.Form form) {
    try {
      return new CaseExport(duck, parts).write(directory, form);
    } catch (IOException | SQLException e) {
      throw new StoreFault("the cases could not be written to " + directory, e);
    }
  }

  @Override
  public void close() {
    Optional<Exception> fault = close(List.of(duck, lock, lockFile));
    if (fault.isPresent()) {
      throw new StoreFault("the store could not be closed", fault.get());
    }
  }
}
