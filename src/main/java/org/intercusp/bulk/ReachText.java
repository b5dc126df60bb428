package org.intercusp.bulk;

import java.util.TreeSet;
import java.util.stream.Collectors;
import org.intercusp.access.Clinic;
import org.intercusp.access.Reach;

/** A reach as text, the same for the same clinics: a line each, or a star for all. */
final class ReachText {

  private static final String EVERYWHERE = "*";
  private static final String BETWEEN = "\t";

  private ReachText() {}

  static String of(Reach reach) {
    if (reach instanceof Reach.Clinics few) {
      return new TreeSet<>(few.clinics())
          .stream()
              .map(clinic -> clinic.system() + BETWEEN + clinic.value())
              .collect(Collectors.joining("\n"));
    }
    return EVERYWHERE;
  }

  static Reach read(String text) {
    if (text.equals(EVERYWHERE)) {
      return new Reach.Everywhere();
    }
    return new Reach.Clinics(
        text.lines().map(ReachText::clinic).collect(Collectors.toCollection(TreeSet::new)));
  }

  private static Clinic clinic(String line) {
    int at = line.indexOf(BETWEEN);
    return new Clinic(line.substring(0, at), line.substring(at + 1));
  }
}
