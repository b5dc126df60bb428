package org.intercusp.rules;

import java.util.Comparator;

/** Orders JSON pointers as a reader of the file meets them: indexes by number, not by digits. */
final class PointerOrder implements Comparator<String> {

  @Override
  public int compare(String left, String right) {
    String[] a = left.split("/", -1);
    String[] b = right.split("/", -1);
    for (int i = 0; i < Math.min(a.length, b.length); i++) {
      int order = isIndex(a[i]) && isIndex(b[i]) ? byNumber(a[i], b[i]) : a[i].compareTo(b[i]);
      if (order != 0) {
        return order;
      }
    }
    return Integer.compare(a.length, b.length);
  }

  private static boolean isIndex(String step) {
    return !step.isEmpty() && step.chars().allMatch(c -> c >= '0' && c <= '9');
  }

  private static int byNumber(String a, String b) {
    int byLength = Integer.compare(a.length(), b.length());
    return byLength != 0 ? byLength : a.compareTo(b);
  }
}
