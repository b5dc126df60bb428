package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** What is said of a block whose teeth are named wrongly. */
class BlockExtentTest {

  @Test
  void aBlockNamedTheWrongWayRoundIsMeasuredByItsTeeth() {
    assertThat(found("44", "47", 2))
        .extracting(Finding::message)
        .containsExactlyInAnyOrder(
            "The lower block ends at 47, behind the second premolar.",
            "The lower right block begins at 47, behind 44 where it ends.");
  }

  @Test
  void upperTeethOfALowerBlockAreEachSaid() {
    assertThat(found("25", "24", 3))
        .extracting(finding -> finding.pointer().text(), Finding::message)
        .containsExactlyInAnyOrder(
            tuple(
                "/appliances/0/blocks/3/mesialTooth",
                "The lower left block names 24, a tooth of another place."),
            tuple(
                "/appliances/0/blocks/3/distalTooth",
                "The lower left block names 25, a tooth of another place."));
  }

  /** The upper block begins at the second premolar; a lower end at the canine is two away. */
  @Test
  void blocksThatEndTwoTeethApartCannotMeet() {
    assertThat(found("44", "43", 2)).isEmpty();
    assertThat(found("43", "43", 2))
        .singleElement()
        .satisfies(finding -> assertThat(finding.value().shown()).isEqualTo("2"));
  }

  /** A pointer leads to something in the file: where there is no list, to what lacks it. */
  @Test
  void withoutBlocksTheApplianceIsPointedAt() {
    Treatment treatment = SampleTreatments.changed("{\"/appliances/0/blocks\": null}");
    assertThat(found(treatment))
        .extracting(finding -> finding.pointer().text())
        .containsExactly("/appliances/0", "/appliances/0");
  }

  @Test
  void noTwoOfThemAreAcceptedTogether() {
    List<Finding> all = found("47", "17", 2);
    assertThat(all).hasSizeGreaterThan(1);
    assertThat(all).extracting(Finding::values).doesNotHaveDuplicates();
  }

  private static List<Finding> found(String distal, String mesial, int block) {
    String at = "/appliances/0/blocks/" + block;
    Treatment treatment =
        SampleTreatments.changed(
            "{\"%s/mesialTooth\": \"%s\", \"%s/distalTooth\": \"%s\"}"
                .formatted(at, mesial, at, distal));
    return found(treatment);
  }

  private static List<Finding> found(Treatment treatment) {
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .map(Judged::finding)
            .filter(finding -> finding.code().equals("appliance-block-extent"))
            .toList();
  }
}
