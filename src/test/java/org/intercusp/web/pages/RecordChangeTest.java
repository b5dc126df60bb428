package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What changed, in words and with the units that the schema of the treatment file gives. */
class RecordChangeTest {

  private static JsonNode json(String text) {
    return JsonMapper.builder().build().readTree(text.replace('\'', '"'));
  }

  private static List<String> between(String before, String after) {
    return RecordChange.between(json(before), json(after)).stream()
        .map(one -> one.place() + ": " + one.before() + " -> " + one.after())
        .toList();
  }

  @Test
  void numbersHaveTheirUnit() {
    assertThat(
            between(
                "{'reviews': [{'id': 'R1', 'overjet': 8}],"
                    + " 'stages': [{'id': 'S1', 'wearHours': 22, 'months': 6}],"
                    + " 'appliances': [{'id': 'A1', 'inclineAngle': 70}]}",
                "{'reviews': [{'id': 'R1', 'overjet': 7.5}],"
                    + " 'stages': [{'id': 'S1', 'wearHours': 20, 'months': 7}],"
                    + " 'appliances': [{'id': 'A1', 'inclineAngle': 65}]}"))
        .containsExactly(
            "Review › R1 › overjet: 8 mm -> 7.5 mm",
            "Stage › S1 › wear hours: 22 h/day -> 20 h/day",
            "Stage › S1 › months: 6 -> 7",
            "Appliance › A1 › incline angle: 70° -> 65°");
  }

  @Test
  void soDoThoseInsideWhatIsNew() {
    assertThat(
            between(
                "{'reviews': [{'id': 'R1'}]}",
                "{'reviews': [{'id': 'R1', 'molarRelation': {'right': 3, 'left': 2.5}}]}"))
        .containsExactly("Review › R1 › molar relation:  -> right 3 mm; left 2.5 mm");
  }

  @Test
  void aPathOfAProposalLeadsToItsUnitToo() {
    assertThat(RecordChange.at("/reviews/R1/overjet", json("8"), json("7")))
        .containsExactly(new RecordChange("Review › R1 › overjet", "8 mm", "7 mm"));
  }

  @Test
  void whatTheSchemaDoesNotKnowHasNone() {
    assertThat(between("{'strange': {'inside': 1}}", "{'strange': {'inside': 2}}"))
        .containsExactly("Strange › inside: 1 -> 2");
  }
}
