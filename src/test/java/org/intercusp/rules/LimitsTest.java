package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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

  /** What is assumed of a jaw is common practice too: figure and rule go by what the clinic set. */
  @Test
  void theJawIsWhatTheClinicAssumes() {
    assertThat(jaw("{}", Limits.USUAL)).isEqualTo(new JawShape(88, 26, 20, 14, 22, 31));
    assertThat(jaw("{\"/patient/birthDate\": \"1990-05-01\"}", Limits.USUAL))
        .isEqualTo(new JawShape(100, 26, 25, 14, 21, 30));
    Limits own =
        Limits.named(
            Map.of(
                "jaw-child-side", new BigDecimal("90"),
                "jaw-balkwill-angle", new BigDecimal("24"),
                "jaw-child-path", new BigDecimal("10"),
                "jaw-child-first-premolar", new BigDecimal("13"),
                "jaw-child-second-premolar", new BigDecimal("20.5"),
                "jaw-child-molar", new BigDecimal("29")));
    assertThat(jaw("{}", own)).isEqualTo(new JawShape(90, 24, 10, 13, 20.5, 29));
    String note =
        new Examiner(own)
            .examine(SampleTreatments.base(), SampleTreatments.base().asOf()).figures().stream()
                .filter(figure -> figure.name().equals("gap-first-molar"))
                .findFirst()
                .orElseThrow()
                .note();
    assertThat(note).contains("Bonwill side 90 mm, Balkwill angle 24 deg, condylar path 10 deg");
    refused("jaw-child-molar", "25", "jaw-child-molar");
  }

  /**
   * The bands of intergingival heights, 15 to 17 mm in a child and 17 to 19 in an adult, from 18
   * years on (common practice, no source). Crowns of 16.5 mm together.
   */
  @ParameterizedTest
  @CsvSource({
    "2008-07-21, bite-height-band, 4, 2, 17",
    "2008-07-20, bite-height-band, 4, 2, ''",
    "2008-07-20, bite-height-band, 4, 3, 19",
    "2008-07-21, bite-height-occlusion, 0.5, 2, ''",
    "2008-07-20, bite-height-occlusion, 0.5, 2, 17-19",
    "2008-07-21, bite-height-occlusion, 2, 2, 15-17"
  })
  void theBandOfHeightsGoesByAge(
      String born, String code, String overbite, String clearance, String limit) {
    String changes =
        """
        "/patient/birthDate": "%s", "/bites/0/upperIncisorHeight": 9.5,
        "/bites/0/lowerIncisorHeight": 7, "/bites/0/overbiteHabitual": %s,
        "/bites/0/incisalClearance": %s"""
            .formatted(born, overbite, clearance);
    assertThat(FoundIn.changes(code, changes))
        .extracting(finding -> finding.limit().shown())
        .isEqualTo(limit.isEmpty() ? List.of() : List.of(limit));
  }

  private static JawShape jaw(String changes, Limits limits) {
    Treatment treatment = SampleTreatments.changed(changes);
    return Case.of(treatment, treatment.asOf(), limits).jaw();
  }

  private static void refused(String name, String value, String says) {
    assertThatThrownBy(() -> Limits.named(Map.of(name, new BigDecimal(value))))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(says);
  }
}
