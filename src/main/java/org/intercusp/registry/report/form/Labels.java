package org.intercusp.registry.report.form;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Slice;

/**
 * What the rows of a chart are called. They stand without the heads of their tables, so an age, a
 * year and what is not recorded say what they are. A clinic goes by its value alone, since the
 * system is the same for most and the table has both; by both where two clinics share a value.
 */
final class Labels {

  private final Map<String, Integer> clinics = new HashMap<>();

  Labels(Collection<Slice> slices) {
    slices.stream()
        .filter(slice -> slice.dimension() == Dimension.CLINIC)
        .map(slice -> value(slice.member()))
        .forEach(value -> clinics.merge(value, 1, Integer::sum));
  }

  String of(Slice slice) {
    return switch (slice.dimension()) {
      case ALL -> "all cases";
      case AGE -> "age " + slice.member();
      case YEAR -> "year " + slice.member();
      case GROWTH -> "growth " + slice.member();
      case CLINIC -> clinic(slice.member());
      default -> slice.member();
    };
  }

  private String clinic(String member) {
    String value = value(member);
    return clinics.getOrDefault(value, 0) == 1 ? value : member;
  }

  /** What stands behind the system, in which there is no such stroke. */

  private static String value(String member) {
    return member.substring(member.indexOf('|') + 1);
  }
}
