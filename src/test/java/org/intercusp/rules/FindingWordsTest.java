package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Map;
import org.intercusp.finding.Finding;
import org.intercusp.rules.rule.Limits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a finding says fits what was found, and names each limit of the clinic's own behind it. */
class FindingWordsTest {

  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [%s, 30]}}""";

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-clearance-high | The premolar clearance in the bite is 8.1 mm | "/bites/0/premolarClearance": 8.1
          bite-clearance-high | The incisal clearance in the bite is 4.1 mm | "/bites/0/incisalClearance": 4.1
          bite-share-borderline | the bite uses 69.23 % of the path, within the reading error (u = 2.8 %) of 70 %. | "/bites/0/registeredReading": 9
          bite-first-step-small | Of 4 mm needed, the path allows a first step of 3 mm. | "/bites/0/overjetHabitual": 4, "/bites/0/maximumReading": 6
          bite-first-step-small | Of 8 mm needed, the path allows a first step of 0 mm. | "/bites/0/habitualReading": 7, "/bites/0/maximumReading": 10
          appliance-clasp-tooth | 16 carries two kinds of clasp: delta and adams. | "/appliances/0/clasps/-": {"tooth": "16", "kind": "adams", "wire": 0.7}
          appliance-retention | The lower plate is held by 1 clasp. | "/appliances/0/clasps/3": null
          appliance-retention | The lower plate is held by 0 clasps. | "/appliances/0/clasps": [{"tooth": "16", "kind": "delta", "wire": 0.7}, {"tooth": "26", "kind": "delta", "wire": 0.7}]
          appliance-block-extent | There is no upper or lower block on the right side. | "/appliances/0/blocks/2": null, "/appliances/0/blocks/0": null
          appliance-block-extent | There is no lower block on the right side. | "/appliances/0/blocks/2": null
          appliance-block-height | The molar blocks are 6.6 mm high; the registered clearance is 5 mm. | "/appliances/0/blockHeights/molar": 6.6
          appliance-block-height | The molar blocks are 8 mm high; the predicted clearance is | "/bites/0/molarClearance": null, "/appliances/0/blockHeights/molar": 8
          appliance-incline-unusual | a flat one | "/appliances/0/inclineAngle": 60
          appliance-incline-unusual | a steep one | "/appliances/0/inclineAngle": 76
          appliance-capping | The lower incisors stand at 99.1° | "/appliances/0/incisalCapping": false, "/films": [BARELY-STEEP]
          review-incisors | The lower incisors are 5.1° further forward | "/films": [BEFORE, BARELY-FORWARD]
          stage-order | (2026-11-24): days of overlap 1. | "/stages/1/startsOn": "2026-11-23"
          stage-order | (2026-11-24): days between 15. | "/stages/1/startsOn": "2026-12-09"
          diagnosis-class | Look at the molar relations again | "/diagnosis/molarRelation": {"right": 0, "left": -1}
          review-progress-slow | The overjet grows by 0.1361 mm a month since fitting; a reduction of 0.27 or more is wanted. | "/reviews/0/overjet": 8, "/reviews/1/overjet": 8, "/reviews/2/overjet": 7.5, "/reviews/3/overjet": 9
          review-progress-slow | The overjet shrinks by 0.2181 mm a month | "/reviews/0/overjet": 8, "/reviews/1/overjet": 8, "/reviews/2/overjet": 7.5, "/reviews/3/overjet": 7
          review-wear-doubt | the overjet has grown by 1 mm since fitting | "/reviews/3/overjet": 9
          review-wear-doubt | the overjet has shrunk by 0.5 mm since fitting | "/reviews/3/overjet": 7.5
          review-harm | Harm was recorded: ulcer, severe, serious, from 2026-07-12. | "/reviews/3/adverseEvents": [{"code": "ulcer", "severity": "severe", "serious": true, "suspectedAppliance": true, "onsetOn": "2026-07-12"}]
          review-harm | Harm was recorded: fragment swallowed, mild, from 2026-07-12. | "/reviews/3/adverseEvents": [{"code": "fragment-swallowed", "severity": "mild", "serious": false, "suspectedAppliance": true, "onsetOn": "2026-07-12"}]
          review-stage-ready | was not measured at both: measure it first. | READY, "/reviews/2/overjetRetruded": null
          review-stage-ready | the next step is due. Go on to the next stage. | READY
          review-stage-ready | End the treatment and score it. | "/asOf": "2028-01-20", "/stages/2/months": 3, "/reviews/2/stageId": "S3", "/reviews/3/stageId": "S3", "/reviews/2/date": "2027-10-01", "/reviews/3/date": "2027-12-24", "/reviews/2/overjet": 2, "/reviews/3/overjet": 2, "/reviews/2/overjetRetruded": 2, "/reviews/3/overjetRetruded": 2
          """)
  void fit(String code, String words, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes), Limits.USUAL))
        .extracting(finding -> finding.message() + " " + finding.remedy())
        .anySatisfy(said -> assertThat(said).contains(words));
  }

  @Test
  void onlyAnActiveStageIsAskedForTheJawHeldBack() {
    String support = "READY, \"/reviews/2/overjetRetruded\": null, \"/stages/0/kind\": \"support\"";
    assertThat(FoundIn.changes("review-stage-ready", spelled(support), Limits.USUAL))
        .singleElement()
        .satisfies(finding -> assertThat(finding.message()).doesNotContain("held back"));
  }

  @ParameterizedTest(name = "{1}: {0} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          incisal-clearance-from-overbite | bite-clearance-high | 1 | "/bites/0/incisalClearance": 4.1, "/bites/0/overbiteHabitual": 1.5
          adult-from | bite-height-band | 21 | "/patient/birthDate": "2007-05-10", "/bites/0/upperIncisorHeight": 8
          adult-from | bite-height-occlusion | 21 | "/patient/birthDate": "2007-05-10", "/bites/0/upperIncisorHeight": 13
          incline-least | appliance-incline-unusual | 40 | "/appliances/0/inclineAngle": 44
          incline-most | appliance-incline-range | 80 | "/appliances/0/inclineAngle": 85
          wear-least | stage-wear | 10 | "/stages/0/wearHours": 11
          share-of-path | bite-first-step-small | 0.50 | "/bites/0/maximumReading": 11
          """)
  void nameALimitOfTheClinicsOwn(String limit, String code, BigDecimal own, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes), Limits.USUAL))
        .noneMatch(finding -> says(finding, limit));
    assertThat(FoundIn.changes(code, spelled(changes), Limits.named(Map.of(limit, own))))
        .isNotEmpty()
        .allMatch(finding -> says(finding, limit));
    assertThat(RuleCatalogue.rule(code).orElseThrow().settable())
        .extracting(settable -> settable.code())
        .contains(limit);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          share-of-path | bite-first-step-small | 0.50 | the usual limit is 0.70. | "/bites/0/maximumReading": 11
          incline-most | appliance-incline-range | 80 | the usual limit is 90°. | "/appliances/0/inclineAngle": 85
          wear-least | stage-wear | 10 | the usual limit is 12 h/day. | "/stages/0/wearHours": 11
          """)
  void tellTheUsualLimitWithTheUnitThatPeopleWrite(
      String limit, String code, BigDecimal own, String words, String changes) {
    assertThat(FoundIn.changes(code, changes, Limits.named(Map.of(limit, own))))
        .isNotEmpty()
        .allSatisfy(finding -> assertThat(finding.message()).contains(words));
  }

  private static boolean says(Finding finding, String limit) {
    return finding.message().contains("The clinic has set " + limit);
  }

  private static String spelled(String changes) {
    return changes
        .replace("BARELY-STEEP", FILM.formatted("F1", "2026-01-12", "53.497"))
        .replace("BARELY-FORWARD", FILM.formatted("F2", "2026-07-13", "59.19"))
        .replace("BEFORE", FILM.formatted("F1", "2026-01-12", "57"))
        .replace(
            "READY",
            """
            "/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2,
             "/reviews/2/molarRelation": {"right": 0, "left": 0}, "/reviews/3/overjet": 2,
             "/reviews/3/overjetRetruded": 2, "/reviews/3/molarRelation": {"right": 0, "left": 0}""");
  }
}
