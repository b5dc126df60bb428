package org.intercusp.registry.store;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Decides entry by entry, in their order, what each is to what is there: stored rows, withdrawals,
 * and the entries before it in the same batch.
 */
final class Deciding {

  /**
   * A row that counts now.
   *
   * @param sequence of a stored row, or -1
   * @param row of one that is not stored yet
   */
  record Live(
      String submitter,
      String submission,
      String person,
      String content,
      int revision,
      long sequence,
      @Nullable List<@Nullable Object> row) {}

  /** In the order they were accepted: one that replaces another comes last. */
  private final Map<String, Live> live = new LinkedHashMap<>();

  private final Map<String, Set<String>> byPerson = new HashMap<>();
  private final Withdrawn withdrawn;
  private final List<Long> dead = new ArrayList<>();
  private final Set<String> gone = new HashSet<>();

  Deciding(List<Live> stored, Withdrawn withdrawn) {
    this.withdrawn = withdrawn;
    stored.forEach(this::remember);
  }

  private void remember(Live row) {
    live.put(row.submission(), row);
    byPerson.computeIfAbsent(row.person(), p -> new HashSet<>()).add(row.submission());
  }

  private void drop(Live row) {
    live.remove(row.submission());
    Objects.requireNonNull(byPerson.get(row.person())).remove(row.submission());
    if (row.sequence() >= 0) {
      dead.add(row.sequence());
    }
  }

  Decision decide(List<Entry> entries) {
    List<Verdict> verdicts = new ArrayList<>(entries.size());
    for (Entry entry : entries) {
      verdicts.add(entry.row() == null ? withdraw(entry) : take(entry));
    }
    List<List<@Nullable Object>> rows = new ArrayList<>();
    for (Live row : live.values()) {
      if (row.row() != null) {
        rows.add(row.row());
      }
    }
    return new Decision(verdicts, rows, List.copyOf(dead), Set.copyOf(gone));
  }

  private Verdict take(Entry entry) {
    Withdrawn.Tomb tomb = withdrawn.of(entry.submission());
    if (tomb != null) {
      if (entry.revision() <= tomb.revision()) {
        return Verdict.WITHDRAWN;
      }
      withdrawn.forget(entry.submission());
    }
    Live before = live.get(entry.submission());
    // A file with a record and its correction can be loaded again: the later one stays.
    if (before != null
        && (before.content().equals(entry.content()) || before.revision() > entry.revision())) {
      return Verdict.SAME;
    }
    if (before != null) {
      drop(before);
    }
    remember(
        new Live(
            String.valueOf(Objects.requireNonNull(entry.row()).get(0)),
            entry.submission(),
            entry.person(),
            entry.content(),
            entry.revision(),
            -1,
            entry.row()));
    return before == null ? Verdict.NEW : Verdict.REPLACED;
  }

  private Verdict withdraw(Entry entry) {
    Withdrawn.Tomb tomb = withdrawn.of(entry.submission());
    if (tomb != null && tomb.content().equals(entry.content())) {
      return Verdict.SAME;
    }
    int revision = entry.revision();
    List<Live> theirs =
        byPerson.getOrDefault(entry.person(), Set.of()).stream()
            .map(submission -> Objects.requireNonNull(live.get(submission)))
            .filter(row -> entry.only() == null || entry.only().equals(row.submitter()))
            .toList();
    for (Live row : theirs) {
      drop(row);
      withdrawn.add(row.submission(), row.revision(), "");
    }
    Live own = live.get(entry.submission());
    if (own != null) {
      revision = Math.max(revision, own.revision());
      drop(own);
    }
    withdrawn.add(entry.submission(), revision, entry.content());
    gone.add(entry.person());
    return theirs.isEmpty() && own == null ? Verdict.NEW : Verdict.REPLACED;
  }
}
