package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.analysis.stage.InPlaceOf;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/**
 * What an appliance was made in place of, on the base of the samples: A1, a twin block fitted on
 * 2026-02-24. What the order says comes before what the days of fitting suggest.
 */
class InPlaceOfTest {

  private static final String APPLIANCE =
      """
      {"id": "%s", "type": "%s", "biteId": "B1", "orderedOn": "2026-02-03", %s "clasps": [],
       "incisalCapping": true, "material": "acrylic"}""";

  @Test
  void theLastOfItsTypeFittedBeforeItIsTheOneItReplaces() {
    assertThat(line(twin("A2", "2026-04-01"), twin("A3", "2026-05-01")))
        .containsExactly("A3", "A2", "A1");
    assertThat(line(twin("A2", "2026-05-02"), twin("A3", "2026-05-01")))
        .as("fitted after it")
        .containsExactly("A3", "A1");
    assertThat(line(twin("A2", "2026-05-01"), twin("A3", "2026-05-01")))
        .as("fitted on one day")
        .containsExactly("A3", "A1");
    assertThat(line(twin("A2", null), twin("A3", "2026-05-01")))
        .as("never fitted")
        .containsExactly("A3", "A1");
  }

  @Test
  void oneOfAnotherTypeIsNotReplaced() {
    String plane = appliance("A2", "anterior-inclined-plane", "\"fittedOn\": \"2026-04-01\",");
    assertThat(line(plane, twin("A3", "2026-05-01"))).containsExactly("A3", "A1");
    assertThat(line(twin("A2", "2026-04-01"), plane.replace("A2", "A3"))).containsExactly("A3");
  }

  @Test
  void whatIsNotFittedYetReplacesWhatItsOrderSaysAlone() {
    assertThat(line(twin("A2", "2026-04-01"), twin("A3", null))).containsExactly("A3");
    assertThat(line(twin("A2", "2026-04-01"), remake("A3", "A1"))).containsExactly("A3", "A1");
  }

  /** The order of A2 names A3, which by the days of fitting followed A2. */
  @Test
  void aRingOfOrderAndDaysEnds() {
    String ring =
        remake("A2", "A3").replace("\"clasps\"", "\"fittedOn\": \"2026-04-01\", \"clasps\"");
    assertThat(line(ring, twin("A3", "2026-05-01"))).containsExactly("A3", "A2");
  }

  private static String twin(String id, String fittedOn) {
    return appliance(
        id, "twin-block", fittedOn == null ? "" : "\"fittedOn\": \"" + fittedOn + "\",");
  }

  private static String remake(String id, String of) {
    String lab =
        """
        "lab": {"requiredOn": "2026-06-01", "records": "scan", "disinfected": true,
         "remakeOf": "%s", "retentionYears": 10},""";
    return appliance(id, "twin-block", lab.formatted(of));
  }

  private static String appliance(String id, String type, String more) {
    return APPLIANCE.formatted(id, type, more);
  }

  /** The line of A3, beside A1 and A2. */
  private static List<String> line(String second, String third) {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/appliances\": [%s, %s, %s]}".formatted(twin("A1", "2026-02-24"), second, third));
    return InPlaceOf.line(treatment, treatment.appliances().get(2)).stream()
        .map(Appliance::id)
        .toList();
  }
}
