package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

@Tag("steady")
class RoundTripTest {

  @ParameterizedTest
  @EnumSource
  void aWholeTreatmentComesBackAsItWasWritten(BundleForm form) {
    Treatment treatment = Samples.whole();
    ReadBack back = Samples.MAPPER.fromBundle(Samples.bundle(treatment, form));
    assertThat(back.faults()).isEmpty();
    assertThat(back.unplaced()).isEmpty();
    assertThat(back.treatment()).isEqualTo(treatment);
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
  }

  @Test
  void xmlCarriesAsMuch() {
    Treatment treatment = Samples.whole();
    String xml =
        Samples.FHIR
            .newXmlParser()
            .encodeResourceToString(Samples.bundle(treatment, BundleForm.COLLECTION));
    ReadBack back =
        Samples.MAPPER.fromBundle(Samples.FHIR.newXmlParser().parseResource(Bundle.class, xml));
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
  }

  @Test
  void theSameTreatmentGivesTheSameBytes() {
    for (BundleForm form : BundleForm.values()) {
      assertThat(Samples.json(Samples.bundle(Samples.whole(), form)))
          .isEqualTo(Samples.json(Samples.bundle(Samples.whole(), form)));
    }
  }

  @Test
  void whateverIsLeftOutStaysOut() {
    List<JsonNode> variants = new ArrayList<>();
    leaveOut(Samples.wholeJson(), "", variants);
    int tried = 0;
    for (JsonNode variant : variants) {
      ReadResult read = new TreatmentReader().read(Samples.JSON.writeValueAsBytes(variant));
      if (read instanceof ReadResult.Accepted accepted) {
        ReadBack back = Samples.journey(accepted.treatment());
        assertThat(back.faults()).as(variant.toString()).isEmpty();
        assertThat(back.unplaced()).as(variant.toString()).isEmpty();
        assertThat(back.treatment()).isEqualTo(accepted.treatment());
        assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(accepted.treatment()));
        tried++;
      }
    }
    // Every optional member and list element of the sample; fewer would mean nothing was left out.
    assertThat(tried).isGreaterThan(200);
  }

  @Test
  void nobodyLookedDiffersFromNothingFound() {
    ObjectNode file = (ObjectNode) Samples.wholeJson();
    ObjectNode patient = (ObjectNode) file.get("patient");
    ObjectNode diagnosis = (ObjectNode) file.get("diagnosis");
    patient.putArray("allergies");
    diagnosis.putArray("jointSigns");
    Treatment looked = Samples.journey(Samples.read(file)).treatment();
    patient.remove("allergies");
    diagnosis.remove("jointSigns");
    Treatment neverLooked = Samples.journey(Samples.read(file)).treatment();
    assertThat(looked.patient().allergies()).isEmpty();
    assertThat(looked.diagnosis().jointSigns()).isEmpty();
    assertThat(neverLooked.patient().allergies()).isNull();
    assertThat(neverLooked.diagnosis().jointSigns()).isNull();
  }

  /** The file without each member and each list element in turn, and with each list empty. */
  private static void leaveOut(JsonNode root, String pointer, List<JsonNode> variants) {
    JsonNode at = root.at(pointer);
    if (at instanceof ObjectNode object) {
      for (String name : List.copyOf(object.propertyNames())) {
        JsonNode copy = root.deepCopy();
        ((ObjectNode) copy.at(pointer)).remove(name);
        variants.add(copy);
        leaveOut(root, pointer + "/" + name.replace("~", "~0").replace("/", "~1"), variants);
      }
    } else if (at instanceof ArrayNode array) {
      JsonNode empty = root.deepCopy();
      ((ArrayNode) empty.at(pointer)).removeAll();
      variants.add(empty);
      for (int i = 0; i < array.size(); i++) {
        JsonNode copy = root.deepCopy();
        ((ArrayNode) copy.at(pointer)).remove(i);
        variants.add(copy);
        leaveOut(root, pointer + "/" + i, variants);
      }
    }
  }
}
