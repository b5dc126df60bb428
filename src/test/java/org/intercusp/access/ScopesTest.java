package org.intercusp.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The grammar of SMART App Launch 2.2, "Scopes for requesting FHIR Resources". */
class ScopesTest {

  @Test
  void aTypeAndItsLettersAreGrantedAndNothingElse() {
    Scopes scopes = Scopes.of(List.of("user/Observation.rs", "system/Task.c"));
    assertThat(scopes.permit("Observation", Interaction.READ)).isTrue();
    assertThat(scopes.permit("Observation", Interaction.SEARCH)).isTrue();
    assertThat(scopes.permit("Observation", Interaction.UPDATE)).isFalse();
    assertThat(scopes.permit("Task", Interaction.CREATE)).isTrue();
    assertThat(scopes.permit("Task", Interaction.READ)).isFalse();
    assertThat(scopes.permit("Patient", Interaction.READ)).isFalse();
    assertThat(scopes.permit("*", Interaction.READ)).isFalse();
  }

  @Test
  void aStarGrantsEveryType() {
    Scopes scopes = Scopes.of(List.of("system/*.rs"));
    assertThat(scopes.permit("*", Interaction.READ)).isTrue();
    assertThat(scopes.permit("Patient", Interaction.SEARCH)).isTrue();
    assertThat(scopes.permit("Patient", Interaction.DELETE)).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "patient/*.rs",
        "system/*.read",
        "system/*.*",
        "system/*.sr",
        "system/*.",
        "system/Observation.rs?category=laboratory",
        "system/observation.rs",
        "SYSTEM/*.rs",
        "system/*.rs system/*.c",
        "openid",
        ""
      })
  void everyOtherWordGrantsNothing(String word) {
    Scopes scopes = Scopes.of(List.of(word));
    for (Interaction one : Interaction.values()) {
      assertThat(scopes.permit("Observation", one)).as(word + " " + one).isFalse();
      assertThat(scopes.permit("*", one)).as(word + " " + one).isFalse();
    }
  }
}
