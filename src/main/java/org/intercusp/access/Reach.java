package org.intercusp.access;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.StringJoiner;
import java.util.TreeSet;

/** Whose things a caller may touch. What is beyond it is, for that caller, not there. */
public sealed interface Reach {

  /** The things of every clinic, and those that belong to none. */
  record Everywhere() implements Reach {
    @Override
    public boolean covers(Clinic clinic) {
      return true;
    }

    @Override
    public Condition condition(String alias) {
      return new Condition("1 = 1", Map.of());
    }
  }

  /** The things of these clinics; of none where the set is empty. */
  record Clinics(Set<Clinic> clinics) implements Reach {
    public Clinics {
      clinics = Set.copyOf(clinics);
    }

    @Override
    public boolean covers(Clinic clinic) {
      return clinics.contains(clinic);
    }

    @Override
    public Condition condition(String alias) {
      if (clinics.isEmpty()) {
        return new Condition("1 = 0", Map.of());
      }
      StringJoiner any = new StringJoiner(" or ", "(", ")");
      Map<String, Object> params = new LinkedHashMap<>();
      SortedSet<Clinic> inOrder = new TreeSet<>(clinics);
      int number = 0;
      for (Clinic clinic : inOrder) {
        any.add(
            "(%1$s.clinic_system = :reachSystem%2$d and %1$s.clinic_value = :reachClinic%2$d)"
                .formatted(alias, number));
        params.put("reachSystem" + number, clinic.system());
        params.put("reachClinic" + number, clinic.value());
        number++;
      }
      return new Condition(any.toString(), params);
    }
  }

  /** Whether a clinic's things are within. */
  boolean covers(Clinic clinic);

  /**
   * The condition that keeps a statement within this reach: the one place where that is written.
   *
   * @param alias of the table in the statement that has {@code clinic_system} and {@code
   *     clinic_value}
   */
  Condition condition(String alias);
}
