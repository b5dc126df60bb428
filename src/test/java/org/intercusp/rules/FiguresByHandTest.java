package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.finding.Figure;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Figures of the base of the samples, reckoned by hand from the definitions of the trade: readings
 * 0, 1, 8 and 13, overjet 8 to 1, overbite 4, clearance 2, crowns 11 and 9; worked examples where
 * there are some. Common practice, no source, but for the expected overjets (Am J Orthod
 * Dentofacial Orthop 2019;155:165-172).
 */
class FiguresByHandTest {

  /** Overjet 11, -1 at the maximum, no slide: 70 % of 12 are 8.4, in half millimetres 8. */
  private static final String ELEVEN =
      """
      "/bites/0/overjetHabitual": 11, "/bites/0/retrudedReading": null,
       "/bites/0/habitualReading": 0, "/bites/0/registeredReading": 8,
       "/bites/0/maximumReading": 12, "/bites/0/overjetInBite": 3""";

  private static final String NINE =
      "\"/bites/0/overjetHabitual\": 9, \"/bites/0/overjetInBite\": 0";

  private static final String THREE =
      "\"/bites/0/molarClearance\": 3.0, \"/stages/0/trimming\": {\"perVisit\": 2, \"fromReview\": 2}";

  /** Every week, at sixty visits: 6 mm need more than the 61 weeks of them at 0.5 mm in six. */
  private static final String SIX =
      "\"/bites/0/molarClearance\": 6.0, \"/stages/0/reviewWeeks\": 1, \"/stages/0/trimming\": {\"perVisit\": 2, \"fromReview\": 2}";

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          age                  | 12.1                           |
          age                  | 12.2                           | "/patient/birthDate": "2014-04-20"
          path                 | 13.00                          |
          path                 | 12.00                          | "/bites/0/retrudedReading": null
          activation           | 8.00                           |
          slide                | 1.00                           |
          share-of-path        | 0.615                          |
          step                 | 7.00                           |
          overjet-explained    | 1.00                           |
          height-in-occlusion  | 16.00                          |
          height-in-bite       | 22.00                          |
          advance-allowed      | 8.10                           |
          advance-first-step   | 8.00                           |
          advance-allowed      | 8.40                           | ELEVEN
          advance-allowed      | 8.10                           | "/bites/0/overjetHabitual": 0
          advance-first-step   | 8.00                           | ELEVEN
          advance-first-step   | 7.50                           | "/bites/0/maximumReading": 12.5
          gap-first-premolar   | 5.53                           | NINE
          gap-second-premolar  | 5.26                           | NINE
          gap-first-molar      | 4.95                           | NINE
          incline-forward      | 0.9397                         |
          incline-vertical     | 0.3420                         |
          incline-ratio        | 2.7475                         |
          incline-ratio        | 1.0000                         | "/appliances/0/inclineAngle": 45
          trimming-visits      | week 8: 1.5 mm; week 14: 0.5 mm; week 20: 0.5 mm; week 26: 0.5 mm | THREE
          molars-meet-week     | 44                             | THREE
          stage-start          | 2026-02-24                     | "/stages/0/startsOn": null
          stage-end            | 2026-11-24                     | "/stages/0/startsOn": null
          next-review          | 2026-08-24                     |
          next-review          | 2026-03-06 to 2026-03-10       | "/reviews": []
          overjet-rate         | 0.75                           |
          overjet-expected     | 5.5                            |
          overjet-expected     | 5.4                            | "/stages/0/wearHours": 12
          next-visit-overjet   | 4.8                            |
          """)
  void isWhatTheHandMakesIt(String name, String value, String changes) {
    assertThat(figure(name, changes == null ? "" : changes).value().shown()).isEqualTo(value);
  }

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          advance-first-step | then 3 mm from week 8, once the overjet is 2.33 mm or less (probably not needed) | ELEVEN
          advance-first-step | one step, if the position is held comfortably |
          advance-first-step | all that is needed; the position is not held comfortably | "/bites/0/comfortable": false
          molars-meet-week | the molars do not meet within the visits reckoned; at 1.0: week 38 | SIX
          gap-first-premolar | 5.16 to 5.87 with a path 10 deg flatter or steeper | NINE
          gap-first-molar | 4.14 to 5.72 with a path 10 deg flatter or steeper | NINE
          gap-first-molar | registered 5 mm, which wins; predicted: Bonwill side 88 mm, Balkwill angle 26 deg, condylar path 20 deg |
          share-of-path | u = 0.028 | "/bites/0/registeredReading": 9
          path | slide assumed 0 | "/bites/0/retrudedReading": null
          """)
  void saysBeside(String name, String note, String changes) {
    assertThat(figure(name, changes == null ? "" : changes).note()).contains(note);
  }

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          path | 6 to 18 |
          share-of-path | at most 0.70 |
          step | at most 10 |
          height-in-occlusion | 15 to 17 | "/patient/birthDate": "2008-07-21"
          height-in-occlusion | 17 to 19 | "/patient/birthDate": "2008-07-20"
          height-in-bite | 17 to 19 | "/patient/birthDate": "2008-07-20"
          gap-first-premolar | 5 to 6 with 2 between incisors (J Orthod 2010;37:209-216) |
          overjet-rate | 0.58 and 0.54 at 12 and 22 h a day prescribed |
          """)
  void hasTheUsualRangeBesideIt(String name, String usual, String changes) {
    assertThat(figure(name, changes == null ? "" : changes).usual()).isEqualTo(usual);
  }

  /** Only the first premolars have a published anchor. */
  @ParameterizedTest
  @CsvSource({"gap-second-premolar", "gap-first-molar"})
  void hasNoUsualRange(String name) {
    assertThat(figure(name, "").usual()).isNull();
  }

  private static Figure figure(String name, String changes) {
    String spelled =
        changes
            .replace("ELEVEN", ELEVEN)
            .replace("NINE", NINE)
            .replace("THREE", THREE)
            .replace("SIX", SIX);
    Treatment treatment = SampleTreatments.changed("{" + spelled + "}");
    return new Examiner()
        .examine(treatment, treatment.asOf()).figures().stream()
            .filter(figure -> figure.name().equals(name))
            .findFirst()
            .orElseThrow();
  }
}
