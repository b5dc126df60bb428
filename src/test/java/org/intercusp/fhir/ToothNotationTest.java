package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.ConceptMap;
import org.hl7.fhir.r4.model.ConceptMap.ConceptMapGroupComponent;
import org.hl7.fhir.r4.model.ConceptMap.SourceElementComponent;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the published maps between tooth notations say is what the reader reads. */
class ToothNotationTest {

  @ParameterizedTest
  @ValueSource(strings = {"tooth-to-snomed", "tooth-to-universal"})
  void theReaderFollowsTheMap(String id) throws IOException {
    ConceptMap map =
        Samples.FHIR
            .newJsonParser()
            .parseResource(
                ConceptMap.class, Files.readString(Path.of("profiles/ConceptMap-" + id + ".json")));
    ConceptMapGroupComponent group = map.getGroupFirstRep();
    List<String> teeth = new ArrayList<>();
    for (SourceElementComponent element : group.getElement()) {
      Coding other = new Coding(group.getTarget(), element.getTargetFirstRep().getCode(), null);
      assertThat(ToothCodes.published().tooth(new CodeableConcept(other)))
          .as(other.getCode())
          .contains(element.getCode());
      teeth.add(element.getCode());
    }
    assertThat(teeth).containsExactlyElementsOf(ToothCodes.published().all());
    Coding unknown = new Coding(group.getTarget(), "33", null);
    assertThat(ToothCodes.published().tooth(new CodeableConcept(unknown))).isEmpty();
  }
}
