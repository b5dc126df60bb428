package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.treatment.shape.Node;
import org.jspecify.annotations.Nullable;

/** One list of the treatment file, with rows put in by id and date. */
final class RecordList {

  private record Entry(Node node, @Nullable SheetRow row) {}

  private final SheetKind kind;
  private final List<Entry> entries = new ArrayList<>();

  private RecordList(SheetKind kind) {
    this.kind = kind;
  }

  static RecordList of(SheetKind kind, Node.Arr known) {
    RecordList list = new RecordList(kind);
    known.items().forEach(item -> list.entries.add(new Entry(item, null)));
    return list;
  }

  void put(SheetRow row) {
    Entry entry = new Entry(row.content(), row);
    for (int i = 0; i < entries.size(); i++) {
      if (!row.id().isEmpty() && row.id().equals(text(entries.get(i).node(), "id"))) {
        entries.set(i, entry);
        return;
      }
    }
    entries.add(place(row.content()), entry);
  }

  /** Behind the last record that is not later; dates of ISO 8601 sort as texts. */
  private int place(Node node) {
    String date = text(node, kind.orderedBy());
    int at = entries.size();
    while (!date.isEmpty()
        && at > 0
        && text(entries.get(at - 1).node(), kind.orderedBy()).compareTo(date) > 0) {
      at--;
    }
    return at;
  }

  private static String text(Node node, String member) {
    return node instanceof Node.Obj object && object.member(member) instanceof Node.Str text
        ? text.text()
        : "";
  }

  Node.Arr node() {
    return new Node.Arr(entries.stream().map(Entry::node).toList());
  }

  /** The rows by their place in the list. */
  Map<Integer, SheetRow> origin() {
    Map<Integer, SheetRow> origin = new LinkedHashMap<>();
    for (int i = 0; i < entries.size(); i++) {
      SheetRow row = entries.get(i).row();
      if (row != null) {
        origin.put(i, row);
      }
    }
    return origin;
  }
}
