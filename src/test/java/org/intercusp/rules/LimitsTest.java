package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.Map;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.junit.jupiter.api.Test;

class LimitsTest {

  @Test
  void everyLimitLiesWithinItsOwnBounds() {
    for (Limit limit : Limit.values()) {
      assertThat(limit.usual()).isBetween(limit.lowest(), limit.highest());
      Limits lowest = new Limits(Map.of());
      assertThat(lowest.of(limit)).isEqualTo(limit.usual());
      assertThat(lowest.isChanged(limit)).isFalse();
    }
  }

  @Test
  void outsideTheBoundsIsRefusedByName() {
    refused("share-of-path", "0.81", "share-of-path");
    refused("share-of-path", "0.49", "share-of-path");
    refused("bite-age", "42.5", "whole");
    refused("adult-from", "17.5", "whole");
    refused("share-of-pth", "0.7", "no limit named");
  }

  /** A ratio has no unit, and days are written out. */
  @Test
  void theRangeIsToldWithTheUnitThatPeopleWrite() {
    refusedEndingWith("share-of-path", "0.81", "it may be set from 0.50 to 0.80");
    refusedEndingWith("bite-age", "1", " days");
    refusedEndingWith("incline-most", "91", "°");
  }

  private static void refusedEndingWith(String name, String value, String says) {
    assertThatThrownBy(() -> Limits.named(Map.of(name, new BigDecimal(value))))
        .hasMessageEndingWith(says);
  }

  @Test
  void aLowerLimitAboveItsUpperOneIsRefused() {
    assertThatThrownBy(
            () ->
                Limits.named(
                    Map.of(
                        "clasp-wire-least", new BigDecimal("0.70"),
                        "clasp-wire-most", new BigDecimal("0.70"),
                        "active-shortest", new BigDecimal("9"),
                        "premolar-clearance-least", new BigDecimal("6"),
                        "premolar-clearance-most", new BigDecimal("6"),
                        "wear-least", new BigDecimal("20"),
                        "wear-full-time", new BigDecimal("16"))))
        .hasMessageContaining("wear-least lies above wear-full-time");
  }

  @Test
  void theUsualValueWrittenOtherwiseIsNoChange() {
    Limits same = Limits.named(Map.of("share-of-path", new BigDecimal("0.7")));
    assertThat(same.isChanged(Limit.SHARE_OF_PATH)).isFalse();
  }

  private static void refused(String name, String value, String says) {
    assertThatThrownBy(() -> Limits.named(Map.of(name, new BigDecimal(value))))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(says);
  }
}
