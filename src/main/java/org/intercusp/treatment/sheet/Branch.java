package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.intercusp.treatment.shape.Node;

/** A record under way: cells put at their places, nested as their columns say. */
final class Branch {

  private final Map<String, Node> leaves = new LinkedHashMap<>();
  private final Map<String, Branch> branches = new LinkedHashMap<>();

  void put(String column, Node value) {
    int end = column.indexOf('.');
    if (end < 0) {
      leaves.put(column, value);
    } else {
      branches
          .computeIfAbsent(column.substring(0, end), name -> new Branch())
          .put(column.substring(end + 1), value);
    }
  }

  /** The record; entries of a list follow each other, so a number left out leaves no gap. */
  Node.Obj object() {
    List<Node.Entry> entries = new ArrayList<>();
    leaves.forEach((name, value) -> entries.add(new Node.Entry(name, value)));
    branches.forEach((name, branch) -> entries.add(new Node.Entry(name, branch.node())));
    return new Node.Obj(entries);
  }

  private Node node() {
    boolean list = leaves.isEmpty() && branches.keySet().stream().allMatch(Branch::isNumber);
    if (!list) {
      return object();
    }
    Map<Integer, Branch> numbered = new TreeMap<>();
    branches.forEach((number, branch) -> numbered.put(Integer.valueOf(number), branch));
    return new Node.Arr(numbered.values().stream().<Node>map(Branch::object).toList());
  }

  private static boolean isNumber(String step) {
    return step.matches("[1-9][0-9]?");
  }
}
