package org.intercusp.registry.report.form;

import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Slice;

/**
 * What the rows of a chart are called: a clinic by its value alone, since the system is the same
 * for most and the table has both; by both where two clinics share a value.
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
    String value = value(slice.member());
    boolean alone = clinics.getOrDefault(value, 0) == 1;
    return slice.dimension() == Dimension.CLINIC && alone ? value : slice.member();
  }

  private static String value(String member) {
    return member.substring(member.lastIndexOf('|') + 1);
  }
}
