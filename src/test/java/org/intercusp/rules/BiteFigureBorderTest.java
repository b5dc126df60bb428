package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.finding.Figure;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A figure of a bite that lies within its uncertainty of a limit says so. */
class BiteFigureBorderTest {

  private static final String BORDERLINE = "borderline to the usual range";

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          path | "/bites/0/maximumReading": 18.0
          path | "/bites/0/maximumReading": 18.4
          path | "/bites/0/retrudedReading": null, "/bites/0/maximumReading": 19
          path | "/bites/0/maximumReading": 6.4
          step | "/bites/0/registeredReading": 11, "/bites/0/maximumReading": 17
          share-of-path | "/bites/0/registeredReading": 9.1
          share-of-path | "/bites/0/registeredReading": 9.2
          height-in-occlusion | "/bites/0/upperIncisorHeight": 12
          height-in-bite | "/bites/0/upperIncisorHeight": 6
          """)
  void says(String name, String changes) {
    assertThat(note(name, changes)).endsWith(BORDERLINE);
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          path | "/bites/0/maximumReading": 17.5
          path | "/bites/0/maximumReading": 13
          step | "/bites/0/registeredReading": 10.5, "/bites/0/maximumReading": 17
          share-of-path | "/bites/0/registeredReading": 8.5
          height-in-occlusion | "/bites/0/upperIncisorHeight": 11
          height-in-bite | "/bites/0/upperIncisorHeight": 8
          activation | "/bites/0/maximumReading": 18
          """)
  void orNot(String name, String changes) {
    String note = note(name, changes);
    assertThat(note == null ? "" : note).doesNotContain("borderline");
  }

  private static String note(String name, String changes) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new Examiner()
        .examine(treatment, treatment.asOf()).figures().stream()
            .filter(figure -> figure.name().equals(name) && figure.subject().equals("B1"))
            .findFirst()
            .map(Figure::note)
            .orElse(null);
  }
}
