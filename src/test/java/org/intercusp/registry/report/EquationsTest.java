package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;

class EquationsTest {

  @Test
  void severalTogetherGiveWhatNoneGivesAlone() {
    Equations<String> equations = new Equations<>();
    // Two pairs with the same sums, and one of the four in a third with something else.
    equations.add(Map.of("a", 1.0, "b", 1.0));
    equations.add(Map.of("a", 1.0, "b", 1.0, "c", 1.0));
    equations.add(Map.of("c", 1.0, "d", -1.0));
    equations.add(Map.of("e", 1.0, "f", 1.0, "a", 3.0));
    assertThat(equations.determined()).containsExactlyInAnyOrder("c", "d");
  }

  @Test
  void whatIsLeftOpenIsNotFound() {
    Equations<String> equations = new Equations<>();
    equations.add(Map.of("a", 1.0, "b", 1.0));
    equations.add(Map.of("b", 1.0, "c", 1.0));
    equations.add(Map.of("c", 1.0, "a", -1.0));
    equations.add(Map.of());
    assertThat(equations.determined()).isEmpty();
  }
}
