package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.finding.Finding;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A finding within its own standard uncertainty of the limit says that it is borderline. By hand
 * from readings of u = 0.5 / sqrt 3: of one 0.289 mm, of two 0.408, of three 0.5, of four 0.577; of
 * the share of a path of 13 mm 0.028 near its limit.
 */
class BorderlineFindingTest {

  @ParameterizedTest(name = "{0} {3}: {1}, not {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          bite-clearance-high    | 8.2  | 8.4  | "/bites/0/premolarClearance": #
          bite-clearance-high    | 4.2  | 4.4  | "/bites/0/incisalClearance": #
          bite-clearance-low     | 3.8  | 3.6  | "/bites/0/premolarClearance": #, "/bites/0/restSpace": null
          bite-clearance-low     | 4.8  | 5.0  | "/bites/0/restSpace": #
          bite-height-band       | 8.4  | 8.6  | "/bites/0/upperIncisorHeight": #, "/bites/0/lowerIncisorHeight": 7
          bite-height-occlusion  | 5.4  | 5.6  | "/bites/0/overbiteHabitual": #
          bite-height-occlusion  | 2.6  | 2.4  | "/bites/0/overbiteHabitual": #
          bite-midline           | 1.3  | 1.5  | "/bites/0/lowerMidlineInBite": #
          bite-midline           | -1.3 | -1.5 | "/bites/0/lowerMidlineInBite": #
          bite-overjet-mismatch  | 2.5  | 2.6  | "/bites/0/overjetInBite": #
          bite-path-implausible  | 18.3 | 18.5 | "/bites/0/maximumReading": #
          bite-path-implausible  | 5.7  | 5.5  | "/bites/0/maximumReading": #
          bite-share-exceeded    | 9.4  | 9.5  | "/bites/0/registeredReading": #
          bite-step-large        | 11.3 | 11.5 | "/bites/0/registeredReading": #
          appliance-block-height | 6.7  | 6.9  | "/appliances/0/blockHeights/molar": #
          appliance-block-height | 5.2  | 5.4  | "/bites/0/restSpace": #
          stage-trim-open-bite   | 0.8  | 0.6  | "/diagnosis/overbite": #
          review-dual-bite       | 6.8  | 7.0  | "/reviews/3/overjetRetruded": #
          review-opening         | 34.7 | 34.5 | "/reviews/3/maximumOpening": #
          review-overcorrection  | -0.2 | -0.4 | "/reviews/3/overjet": #
          review-wear-doubt      | 7.3  | 7.5  | "/reviews/3/overjet": #, "/reviews/3/retractionTenderness": "absent"
          review-wear-doubt      | 7.3  | 7.5  | "/reviews/3/overjet": #, "/reviews/3/wearMeasured": {"hoursPerDay": 6, "from": "2026-05-01", "to": "2026-05-31"}
          """)
  void isBorderlineWithinItsOwnUncertainty(String code, String near, String far, String change) {
    assertThat(said(code, change, near)).contains("Borderline");
    assertThat(said(code, change, far)).doesNotContain("Borderline");
  }

  /** The share of 13 mm is 0.673 and 0.669; u there is 0.028. */
  @ParameterizedTest
  @CsvSource({"9.1, 1", "8.75, 1", "8.7, 0"})
  void aShareWithinItsUncertaintyOfTheLimitIsNoted(String registered, int found) {
    assertThat(
            FoundIn.changes(
                "bite-share-borderline", "\"/bites/0/registeredReading\": " + registered))
        .hasSize(found);
  }

  private static String said(String code, String change, String value) {
    assertThat(FoundIn.changes(code, change.replace("#", value))).hasSize(1);
    Finding finding = FoundIn.changes(code, change.replace("#", value)).get(0);
    return finding.message();
  }
}
