package org.intercusp.conformance;

import java.util.HashSet;
import java.util.Set;

/** One open object or array of the JSON document being walked. */
final class Frame {

  private final boolean list;
  private final String name;
  private final Set<String> members = new HashSet<>();
  private String member = "";
  private int items;

  /**
   * @param name the member under which the object or array stands; of an object in an array, that
   *     of the array
   */
  Frame(boolean list, String name) {
    this.list = list;
    this.name = name;
  }

  boolean list() {
    return list;
  }

  String name() {
    return name;
  }

  /** The member a value that comes next belongs to. */
  String member() {
    return list ? name : member;
  }

  int items() {
    return items;
  }

  /** False when the object has such a member already. */
  boolean begin(String next) {
    member = next;
    return members.add(next);
  }

  int members() {
    return members.size();
  }

  void countItem() {
    items++;
  }

  /** Adds this frame's step to a FHIRPath; nothing before the first member or item. */
  void append(StringBuilder path) {
    if (list && items > 0) {
      path.append('[').append(items - 1).append(']');
    } else if (!list && !member.isEmpty()) {
      path.append(path.length() == 0 ? "" : ".");
      path.append(Choices.stem(member.startsWith("_") ? member.substring(1) : member));
    }
  }
}
