package org.intercusp.access;

/**
 * A clinic's identifier, by which what belongs to different clinics is kept apart.
 *
 * @param system the system of the identifier, a URI; not empty
 * @param value the value in that system; not empty
 */
public record Clinic(String system, String value) implements Comparable<Clinic> {

  public Clinic {
    if (system.isBlank() || value.isBlank()) {
      throw new IllegalArgumentException("A clinic has a system and a value");
    }
  }

  /** Reads {@code SYSTEM|VALUE}; the first bar divides them, since a URI has none. */
  public static Clinic parse(String systemAndValue) {
    int bar = systemAndValue.indexOf('|');
    if (bar < 1) {
      throw new IllegalArgumentException("A clinic is written SYSTEM|VALUE");
    }
    return new Clinic(systemAndValue.substring(0, bar), systemAndValue.substring(bar + 1));
  }

  /** As {@code SYSTEM|VALUE}, which {@link #parse} reads. */
  public String written() {
    return system + "|" + value;
  }

  @Override
  public int compareTo(Clinic other) {
    int bySystem = system.compareTo(other.system);
    return bySystem != 0 ? bySystem : value.compareTo(other.value);
  }
}
