package org.intercusp.registry.store;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a batch of entries comes to, before it is written.
 *
 * @param verdicts one for each entry, in their order
 * @param rows to add
 * @param dead sequences of stored rows that no longer count
 * @param gone persons whose traces go, as pseudonyms
 */
record Decision(
    List<Verdict> verdicts, List<List<@Nullable Object>> rows, List<Long> dead, Set<String> gone) {}
