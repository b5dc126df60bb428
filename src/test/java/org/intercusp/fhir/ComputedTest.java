package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Quantity;
import org.intercusp.analysis.film.Cephalometry;
import org.intercusp.analysis.film.Measurement;
import org.intercusp.analysis.model.ModelFigures;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Who receives a treatment is told what was computed from its readings, as a person is shown it,
 * and nothing of that comes back as if the clinic had given it.
 */
class ComputedTest {

  private static ObjectNode sample() {
    try {
      return (ObjectNode)
          Samples.JSON.readTree(
              Files.readString(Path.of("sample-bundles/deep-bite-one-step.treatment.json")));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Bundle bundle(Consumer<ObjectNode> change) {
    ObjectNode file = sample();
    change.accept(file);
    return Samples.bundle(Samples.read(file), BundleForm.COLLECTION);
  }

  private static List<Observation> observations(Bundle bundle, String code) {
    return bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .map(Observation.class::cast)
        .filter(one -> one.getCode().getCodingFirstRep().getCode().equals(code))
        .toList();
  }

  private static Observation index(Bundle bundle, String method) {
    return observations(bundle, "90862-4").stream()
        .filter(one -> one.getMethod().getCodingFirstRep().getCode().equals(method))
        .reduce(
            (a, b) -> {
              throw new AssertionError("two of " + method);
            })
        .orElseThrow();
  }

  private static Map<String, Quantity> components(Observation observation) {
    return observation.getComponent().stream()
        .filter(ObservationComponentComponent::hasValueQuantity)
        .collect(
            Collectors.toMap(
                one -> one.getCode().getCodingFirstRep().getCode(),
                ObservationComponentComponent::getValueQuantity,
                (first, second) -> first));
  }

  /** The figures that {@code check} prints of the sample: PAR 29 and 30, DHC 4a, ICON 69. */
  @Test
  void whatFindingsAddUpToGoesOutBesideThem() {
    Bundle bundle = bundle(file -> {});
    Map<String, Quantity> par = components(index(bundle, "par"));
    assertThat(par).hasSize(9);
    assertThat(par.get("par-weighted-uk").getValue()).isEqualByComparingTo("29");
    assertThat(par.get("par-weighted-us").getValue()).isEqualByComparingTo("30");
    assertThat(index(bundle, "dhc").getValueCodeableConcept().getCodingFirstRep().getCode())
        .isEqualTo("4a");
    Map<String, Quantity> icon = components(index(bundle, "icon"));
    assertThat(icon.get("icon-weighted").getValue()).isEqualByComparingTo("69");
    String findings = url(bundle, observations(bundle, "occlusal-findings").get(0));
    Observation scoring = observations(bundle, "outcome-scoring").get(0);
    for (String method : List.of("par", "dhc", "icon")) {
      Observation index = index(bundle, method);
      assertThat(index.getDerivedFrom())
          .extracting(from -> from.getReference())
          .containsExactly(findings);
      assertThat(scoring.getHasMember())
          .extracting(member -> member.getReference())
          .contains(url(bundle, index));
    }
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.unplaced()).isEmpty();
    assertThat(back.treatment()).isEqualTo(Samples.read(sample()));
  }

  @Test
  void whatTheExaminerGaveIsNoDerivation() {
    ObjectNode file = sample();
    ((ObjectNode) file.at("/outcomes/0")).putObject("scores").put("dhc", "4a");
    Bundle bundle = Samples.bundle(Samples.read(file), BundleForm.COLLECTION);
    assertThat(index(bundle, "dhc").hasDerivedFrom()).isFalse();
    assertThat(index(bundle, "par").hasDerivedFrom()).isTrue();
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(Samples.read(file)));
  }

  @Test
  void whatLacksAReadingIsAbsent() {
    Bundle bundle =
        bundle(
            file -> {
              ((ArrayNode) file.at("/outcomes/0/findings/contacts/upper")).setNull(0);
              ((ObjectNode) file.at("/films/0/landmarks")).remove("A");
            });
    assertThat(observations(bundle, "90862-4"))
        .extracting(one -> one.getMethod().getCodingFirstRep().getCode())
        .contains("dhc")
        .doesNotContain("par");
    assertThat(components(observations(bundle, "cephalometric-tracing").get(0)))
        .containsKey("film-snb")
        .doesNotContainKeys("film-sna", "film-anb");
  }

  @Test
  void filmsAndModelsGoOutWithWhatIsMeasuredOnThem() {
    Treatment treatment = Samples.read(sample());
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    Map<String, Quantity> film = components(observations(bundle, "cephalometric-tracing").get(0));
    assertThat(film.get("film-sna").getValue()).isEqualByComparingTo("81.1");
    assertThat(film.get("film-sna").getCode()).isEqualTo("deg");
    assertThat(film.get("film-wits").getCode()).isEqualTo("mm");
    assertThat(Measured.ON_FILMS.keySet())
        .as("whatever is measured goes out")
        .containsAll(Stream.of(Measurement.values()).map(Measurement::code).toList());
    agree(film, "film-", Cephalometry.of(treatment.films().get(0)).figures(), 17);
    Map<String, Quantity> model = components(observations(bundle, "study-model").get(0));
    agree(model, "model-", ModelFigures.figures(treatment.models().get(0)), 6);
  }

  /** Some servers keep numbers without the zeros at their end. */
  @Test
  void aZeroThatAServerLeftOutIsNothingBeyondTheTreatment() {
    Bundle bundle = bundle(file -> {});
    for (String code : List.of("construction-bite", "cephalometric-tracing", "study-model")) {
      for (ObservationComponentComponent part : observations(bundle, code).get(0).getComponent()) {
        if (part.hasValueQuantity()) {
          Quantity quantity = part.getValueQuantity();
          quantity.setValue(
              new BigDecimal(quantity.getValue().stripTrailingZeros().toPlainString()));
        }
      }
    }
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.treatment()).isEqualTo(Samples.read(sample()));
    assertThat(back.unplaced()).isEmpty();
  }

  private static void agree(
      Map<String, Quantity> parts, String prefix, List<Figure> figures, int expected) {
    int found = 0;
    for (Figure figure : figures) {
      Quantity part = parts.get(prefix + figure.name());
      if (part != null && figure.value() instanceof Value.Numeric known) {
        BigDecimal shown = known.number();
        assertThat(part.getValue()).as(figure.name()).isEqualTo(shown);
        found++;
      }
    }
    assertThat(found).isEqualTo(expected);
  }

  private static String url(Bundle bundle, Observation observation) {
    return bundle.getEntry().stream()
        .filter(entry -> entry.getResource() == observation)
        .map(Bundle.BundleEntryComponent::getFullUrl)
        .findFirst()
        .orElseThrow();
  }
}
