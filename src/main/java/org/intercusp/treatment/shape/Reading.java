package org.intercusp.treatment.shape;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.ShortText;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/**
 * What one reading of a file gathers: its faults, the ids it declares and the references it makes.
 * Faults are kept up to {@link #MAX_FAULTS}, so that a hostile file cannot fill the memory.
 */
public final class Reading {

  /** Faults kept of one file; nobody mends a thousand by hand. Common practice, no source. */
  public static final int MAX_FAULTS = 1000;

  /** As much of a value as a fault shows; common practice, no source. */
  private static final int SHOWN = 120;

  private final Source format;
  private final List<Fault> faults = new ArrayList<>();
  private final Map<String, Map<String, Pointer>> declared = new HashMap<>();
  private final List<Reference> references = new ArrayList<>();
  private int count;

  private record Reference(String list, String id, Pointer at) {}

  /**
   * Starts a reading.
   *
   * @param format what describes the file, as the source of faults that break its form
   */
  public Reading(Source format) {
    this.format = format;
  }

  /** Faults so far, those beyond the kept ones counted too. */
  int count() {
    return count;
  }

  void add(Fault fault) {
    count++;
    if (count <= MAX_FAULTS) {
      faults.add(fault);
    }
  }

  void add(Fault.Code code, Pointer at, @Nullable Node found, String expected) {
    add(new Fault(code, at, found == null ? null : shown(found), expected, null, format));
  }

  void wrongType(Pointer at, Node found, String expected) {
    add(Fault.Code.WRONG_TYPE, at, found, expected);
  }

  void outOfRange(Pointer at, Node found, String expected, @Nullable Unit unit, Source source) {
    add(new Fault(Fault.Code.OUT_OF_RANGE, at, shown(found), expected, unit, source));
  }

  void declare(String list, String id, Pointer at) {
    Pointer first = declared.computeIfAbsent(list, l -> new HashMap<>()).putIfAbsent(id, at);
    if (first != null) {
      add(
          Fault.Code.DUPLICATE_ID,
          at,
          new Node.Str(id),
          "an id that no other entry of " + list + " has; " + first + " has it");
    }
  }

  void refer(String list, String id, Pointer at) {
    references.add(new Reference(list, id, at));
  }

  /** Everything that is wrong, once the whole file has been read. */
  public List<Fault> finish() {
    references.forEach(this::resolve);
    references.clear();
    if (count > MAX_FAULTS) {
      faults.add(
          new Fault(
              Fault.Code.TOO_MANY_FAULTS,
              Pointer.ROOT,
              Value.of(Integer.toString(count)),
              "at most " + MAX_FAULTS + " faults; the others are not listed",
              null,
              Source.COMMON_PRACTICE));
      count = MAX_FAULTS;
    }
    return List.copyOf(faults);
  }

  private void resolve(Reference reference) {
    Map<String, Pointer> ids = declared.getOrDefault(reference.list(), Map.of());
    if (!ids.containsKey(reference.id())) {
      unknown(reference, "the id of one of " + reference.list());
    } else if (comesBack(reference)) {
      unknown(reference, "the id of another of " + reference.list() + ", never round in a ring");
    }
  }

  private void unknown(Reference reference, String expected) {
    add(Fault.Code.UNKNOWN_REFERENCE, reference.at(), new Node.Str(reference.id()), expected);
  }

  /** Whether following the references of one list from here leads back here. */
  private boolean comesBack(Reference start) {
    String own = "/" + start.list() + "/";
    if (!start.at().text().startsWith(own)) {
      return false;
    }
    Map<String, String> next = new HashMap<>();
    for (Reference reference : references) {
      if (reference.list().equals(start.list()) && reference.at().text().startsWith(own)) {
        next.put(element(reference.at()), reference.id());
      }
    }
    Map<String, Pointer> ids = declared.getOrDefault(start.list(), Map.of());
    Set<String> seen = new HashSet<>();
    String at = element(start.at());
    while (seen.add(at)) {
      String target = next.get(at);
      Pointer declaredAt = target == null ? null : ids.get(target);
      if (declaredAt == null) {
        return false;
      }
      at = element(declaredAt);
    }
    return at.equals(element(start.at()));
  }

  /** The first two steps of a pointer: the list and the index in it. */
  private static String element(Pointer at) {
    int end = at.text().indexOf('/', at.text().indexOf('/', 1) + 1);
    return end < 0 ? at.text() : at.text().substring(0, end);
  }

  static Value shown(Node node) {
    if (node instanceof Node.Num number) {
      return number.value() == null ? Value.of(cut(number.text())) : Value.of(number.value());
    }
    if (node instanceof Node.Str text) {
      return Value.of(cut(text.text()));
    }
    return Value.of(node instanceof Node.Bool flag ? Boolean.toString(flag.value()) : node.kind());
  }

  private static String cut(String text) {
    return text.length() <= SHOWN ? text : ShortText.cut(text, SHOWN) + "…";
  }
}
