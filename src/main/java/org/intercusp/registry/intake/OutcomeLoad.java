package org.intercusp.registry.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.BooleanSupplier;
import org.intercusp.finding.Pointer;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.registry.store.CaseStore;
import org.intercusp.registry.store.Entry;
import org.intercusp.registry.store.RefusedLine;
import org.intercusp.registry.store.StoreFault;
import org.intercusp.registry.store.Verdict;
import org.intercusp.treatment.submission.Refusal;
import org.jspecify.annotations.Nullable;

/**
 * Loads one input of NDJSON: blocks of lines are read and checked on every processor, decided and
 * written in their order, a batch at a time, together with the journal. What is held at once does
 * not grow with the input.
 */
final class OutcomeLoad {

  /** Rows of a batch: about 60 MB while it is written. */
  private static final int BATCH = 20_000;

  /** Refused lines of a batch, each with its reasons; so many are 20 MB. */
  private static final int REFUSED_OF_BATCH = 4_000;

  /**
   * Refused lines after which a submission over HTTP ends: whoever sent it has more to mend than
   * they read. Common practice, no source.
   */
  static final int MOST_REFUSED = 10_000;

  private final CaseStore store;
  private final KeyRing keys;
  private final Senders senders;
  private final Reduction reduction;
  private final Path loads;
  private final Clock clock;
  private final LoadListener listener;
  private final SubmissionWitness witness;
  private LoadStatus status;
  private List<ReadBlock> batch = new ArrayList<>();
  private long batched;
  private int refused;

  OutcomeLoad(
      CaseStore store,
      Senders senders,
      RegistryPlace place,
      Clock clock,
      LoadListener listener,
      SubmissionWitness witness,
      LoadStatus status) {
    this.store = store;
    this.keys = store.keys();
    this.senders = senders;
    this.reduction = place.reduction();
    this.loads = place.loads();
    this.clock = clock;
    this.listener = listener;
    this.witness = witness;
    this.status = status;
  }

  /**
   * Loads the rest of the input.
   *
   * @param in stands behind what the journal has
   * @param stop asked after each block; what is written stays, the rest can go on later
   */
  LoadStatus run(InputStream in, BooleanSupplier stop) throws IOException {
    int threads = Math.max(1, Runtime.getRuntime().availableProcessors());
    ExecutorService workers = Executors.newFixedThreadPool(threads);
    LocalDate today = LocalDate.now(clock);
    ThreadLocal<ReadBlock.Reader> readers =
        ThreadLocal.withInitial(() -> new ReadBlock.Reader(keys, senders, reduction, today));
    try {
      LineBlocks blocks = new LineBlocks(in, status.lines(), status.bytes());
      Deque<Future<ReadBlock>> ahead = new ArrayDeque<>();
      boolean more = true;
      while ((more || !ahead.isEmpty()) && !stop.getAsBoolean() && !isTooBad()) {
        LineBlocks.Block block = more && ahead.size() < 2 * threads ? blocks.next() : null;
        if (block != null) {
          ahead.add(workers.submit(() -> readers.get().read(block)));
        } else {
          more = more && ahead.size() >= 2 * threads;
          if (!ahead.isEmpty()) {
            take(done(ahead.remove()));
          }
        }
      }
      write();
      if (isTooBad()) {
        finish(status.failed(LoadStatus.TOO_MANY_REFUSED, clock.instant()));
      } else if (!stop.getAsBoolean()) {
        finish(status.at(LoadStatus.State.DONE, clock.instant()));
      }
      return status;
    } finally {
      workers.shutdownNow();
    }
  }

  /** Asked of what is written, so that it is the same after a stop. */
  private boolean isTooBad() {
    return status.source().equals(OutcomeIntake.HTTP) && status.counts().refused() > MOST_REFUSED;
  }

  private static ReadBlock done(Future<ReadBlock> future) {
    try {
      return future.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new StoreFault("the load was interrupted", e);
    } catch (ExecutionException e) {
      // Another time it would be the same: this is no fault of the store.
      throw new IllegalStateException("a block could not be read", e.getCause());
    }
  }

  private void take(ReadBlock block) {
    batch.add(block);
    batched += block.block().lines();
    refused += block.refused().size();
    if (batched >= BATCH || refused >= REFUSED_OF_BATCH) {
      write();
    }
  }

  private void write() {
    if (batch.isEmpty()) {
      return;
    }
    List<ReadBlock> blocks = batch;
    batch = new ArrayList<>();
    batched = 0;
    refused = 0;
    List<Entry> entries = blocks.stream().flatMap(block -> block.entries().stream()).toList();
    LineBlocks.Block last = blocks.get(blocks.size() - 1).block();
    List<String> lines = new ArrayList<>();
    LoadStatus[] next = {status};
    store.take(
        entries,
        (texts, verdicts) -> {
          lines.addAll(refusals(blocks, entries, verdicts));
          LoadCounts counts = counts(blocks, entries, verdicts);
          next[0] = status.after(counts, last.endLine(), last.endOffset());
          if (!lines.isEmpty()) {
            String name = status.id() + "-%012d".formatted(blocks.get(0).block().firstLine());
            texts.put(loads.resolve(name + RefusedLine.SUFFIX), String.join("\n", lines) + "\n");
          }
          texts.put(LoadStatus.file(loads, status.id()), next[0].text());
        });
    status = next[0];
    listener.written(status, lines);
  }

  private void finish(LoadStatus done) {
    store.settle();
    OutcomeIntake.tell(witness, done);
    store.take(
        List.of(), (texts, none) -> texts.put(LoadStatus.file(loads, done.id()), done.text()));
    status = done;
  }

  private static LoadCounts counts(
      List<ReadBlock> blocks, List<Entry> entries, List<Verdict> verdicts) {
    long unread = blocks.stream().mapToLong(block -> block.refused().size()).sum();
    long withdrawn = entries.stream().filter(entry -> entry.row() == null).count();
    return new LoadCounts(
        entries.size() + unread,
        count(verdicts, Verdict.NEW),
        count(verdicts, Verdict.SAME),
        count(verdicts, Verdict.REPLACED),
        unread + count(verdicts, Verdict.WITHDRAWN),
        withdrawn);
  }

  private static long count(List<Verdict> verdicts, Verdict verdict) {
    return Collections.frequency(verdicts, verdict);
  }

  /** A line to keep, at its place in the input. */
  private record Placed(long line, String text) {}

  private List<String> refusals(
      List<ReadBlock> blocks, List<Entry> entries, List<Verdict> verdicts) {
    List<Placed> placed = new ArrayList<>();
    for (ReadBlock block : blocks) {
      for (ReadBlock.RefusedRecord refused : block.refused()) {
        for (Refusal reason : refused.reasons()) {
          placed.add(placed(refused.line(), reason, refused.person()));
        }
      }
    }
    for (int i = 0; i < verdicts.size(); i++) {
      Refusal reason = reason(verdicts.get(i));
      if (reason != null) {
        // Nothing is kept of whom it is about: they may have withdrawn.
        placed.add(placed(entries.get(i).line(), reason, null));
      }
    }
    placed.sort(Comparator.comparingLong(Placed::line));
    return placed.stream().map(Placed::text).toList();
  }

  private Placed placed(long line, Refusal reason, @Nullable String person) {
    return new Placed(line, RefusedLine.of(line, reason, person, keys.current()));
  }

  private static @Nullable Refusal reason(Verdict verdict) {
    return switch (verdict) {
      case WITHDRAWN ->
          new Refusal(
              "record-withdrawn",
              Pointer.of("consent"),
              "a higher revision with a new consent, since consent was withdrawn");
      case NEW, SAME, REPLACED -> null;
    };
  }
}
