package org.intercusp.conformance;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What refers to what among the entries of a Bundle. A validator follows references from entry to
 * entry, each entry once; how deep that goes is found here first, without recursion and in a time
 * linear in entries and references.
 */
final class References {

  /** What one entry is called and what it refers to. */
  private static final class Entry {
    private @Nullable String fullUrl;
    private final List<String> targets = new ArrayList<>();
  }

  /** An entry being followed, and how many of its references were. */
  private static final class Visit {
    private final int entry;
    private int next;

    Visit(int entry) {
      this.entry = entry;
    }
  }

  private final List<Entry> entries = new ArrayList<>();

  /** Takes a full URL of the entry with this number. */
  void named(int entry, String fullUrl) {
    at(entry).fullUrl = fullUrl;
  }

  /** Takes a reference made somewhere in the entry with this number. */
  void refers(int entry, String target) {
    at(entry).targets.add(target);
  }

  private Entry at(int entry) {
    while (entries.size() <= entry) {
      entries.add(new Entry());
    }
    return entries.get(entry);
  }

  /** Whether following references goes through more than {@code limit} entries in a row. */
  boolean chainBeyond(int limit) {
    Map<String, Integer> names = names();
    boolean[] seen = new boolean[entries.size()];
    for (int start = 0; start < seen.length; start++) {
      if (!seen[start] && chainFrom(start, seen, names) > limit) {
        return true;
      }
    }
    return false;
  }

  private int chainFrom(int start, boolean[] seen, Map<String, Integer> names) {
    Deque<Visit> open = new ArrayDeque<>();
    open.push(new Visit(start));
    seen[start] = true;
    int longest = 1;
    while (!open.isEmpty()) {
      Visit visit = open.element();
      List<String> targets = entries.get(visit.entry).targets;
      if (visit.next == targets.size()) {
        open.pop();
        continue;
      }
      Integer target = names.get(targets.get(visit.next));
      visit.next++;
      if (target != null && !seen[target]) {
        seen[target] = true;
        open.push(new Visit(target));
        longest = Math.max(longest, open.size());
      }
    }
    return longest;
  }

  // A relative reference names the last two parts of a full URL.
  private Map<String, Integer> names() {
    Map<String, Integer> names = new HashMap<>();
    for (int i = 0; i < entries.size(); i++) {
      String url = entries.get(i).fullUrl;
      if (url != null) {
        names.putIfAbsent(url, i);
        int slash = url.lastIndexOf('/', url.lastIndexOf('/') - 1);
        if (slash >= 0) {
          names.putIfAbsent(url.substring(slash + 1), i);
        }
      }
    }
    return names;
  }
}
