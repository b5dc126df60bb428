package org.intercusp.web.pages.entry;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Value;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A stored treatment with one entry more, as the strict reader takes it.
 *
 * @param treatment absent where the reader refuses it
 * @param faults what is wrong, by the name of the field; a fault elsewhere under an empty name
 */
record Trial(@Nullable Treatment treatment, Map<String, String> faults) {

  private static final String MISSING = "missing-member";

  /** Puts an entry into a treatment and reads the whole strictly. */
  static Trial of(ObjectNode stored, Sheet sheet, EntryText text) {
    Placed placed = Placed.in(stored, sheet, text.entry());
    Map<String, String> faults = new LinkedHashMap<>();
    ReadResult result = new TreatmentReader().read(placed.bytes());
    if (result instanceof ReadResult.Refused refused) {
      refused.faults().forEach(fault -> faults.put(placed.name(fault), words(fault)));
    }
    faults.putAll(text.faults());
    Treatment treatment =
        result instanceof ReadResult.Accepted accepted && faults.isEmpty()
            ? accepted.treatment()
            : null;
    return new Trial(treatment, faults);
  }

  /** The members of the entry that cannot be taken as they are. */
  Set<String> faultyMembers() {
    return faults.keySet().stream()
        .map(name -> name.split("/", -1)[0])
        .collect(Collectors.toUnmodifiableSet());
  }

  /**
   * The same with stand-ins for needed members that are missing or wrong and without optional ones
   * that are, so that what does not depend on them can be computed.
   */
  Trial completed(ObjectNode stored, Sheet sheet, EntryText text) {
    ObjectNode entry = text.entry().deepCopy();
    for (String name : faults.keySet()) {
      Object standIn = sheet.standIns().get(name.replaceAll("/\\d+/", "/*/"));
      if (standIn == null) {
        entry.remove(name.split("/", -1)[0]);
      } else {
        set(entry, List.of(name.split("/", -1)), standIn);
      }
    }
    return of(stored, sheet, new EntryText(entry, Map.of()));
  }

  private static void set(ObjectNode entry, List<String> steps, Object value) {
    JsonNode parent = entry;
    for (String step : steps.subList(0, steps.size() - 1)) {
      parent =
          parent instanceof ArrayNode list ? list.path(Integer.parseInt(step)) : parent.path(step);
    }
    if (parent instanceof ObjectNode object) {
      object.set(steps.get(steps.size() - 1), Placed.node(value));
    }
  }

  private static String words(Finding fault) {
    Value found = fault.value();
    Value expected = fault.limit();
    String wanted = expected == null ? fault.message() : expected.shown();
    if (fault.code().equals(MISSING)) {
      return "This is needed.";
    }
    return found == null
        ? fault.message()
        : "\u201c" + found.shown() + "\u201d cannot be taken: expected " + wanted + ".";
  }
}
