package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** Documents as FHIR R4 has them (3.3.1), and their words as people write them. */
class DocumentInstanceTest {

  @Test
  void eachContentIsADocumentOfItsOwnOfTheSameComposition() {
    Bundle first = document("9");
    Bundle again = document("9");
    Bundle next = document("8.4");
    assertThat(Samples.json(again)).isEqualTo(Samples.json(first));
    assertThat(next.getIdentifier().getSystem()).isEqualTo(first.getIdentifier().getSystem());
    assertThat(next.getIdentifier().getValue()).isNotEqualTo(first.getIdentifier().getValue());
    assertThat(composition(next).getIdentifier().getValue())
        .isEqualTo(composition(first).getIdentifier().getValue())
        .isNotEqualTo(first.getIdentifier().getValue());
  }

  @Test
  void theWordsHaveNoCodesOfUnitsAndNoEmptyDays() {
    String words =
        composition(document("9")).getSection().stream()
            .map(section -> section.getText().getDivAsString())
            .reduce("", String::concat);
    assertThat(words)
        .contains("mm")
        .contains(" h/day")
        .doesNotContain("{count}")
        .doesNotContain("{score}")
        .doesNotContain("h/d ")
        .doesNotContain("( to ")
        .doesNotContainPattern("[0-9] 1( \\(|[<,])");
  }

  @Test
  void itSaysItsLimitsAloud() {
    assertThat(composition(document("9")).getText().getDivAsString())
        .contains("Treatment with a functional appliance")
        .contains("Decision support for licensed clinicians; the clinician decides.");
  }

  private static Bundle document(String overjet) {
    ObjectNode file = (ObjectNode) Samples.wholeJson();
    ((ObjectNode) file.at("/diagnosis")).put("overjet", new java.math.BigDecimal(overjet));
    return Samples.bundle(Samples.read(file), BundleForm.DOCUMENT);
  }

  private static Composition composition(Bundle document) {
    return (Composition) document.getEntryFirstRep().getResource();
  }
}
