package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.TreatmentMapper;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The example resources of the FHIR R4 specification, which know nothing of us. */
class SpecificationExamplesTest {

  private static final TreatmentMapper MAPPER = new TreatmentMapper(Canonicals.RESERVED);

  static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("src/test/resources/conformance/specification"))) {
      return files.filter(file -> file.toString().endsWith(".json")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("examples")
  void isJudgedWithoutACrash(Path file) throws IOException {
    for (Issue issue : Judges.SHARED.validate(Files.readAllBytes(file), Format.JSON)) {
      assertThat(issue.text()).isNotBlank();
      assertThat(issue.rule()).isNotBlank();
    }
  }

  @ParameterizedTest
  @MethodSource("examples")
  void isReadWithoutACrashAndAnswered(Path file) throws IOException {
    Bundle bundle = new Bundle().setType(Bundle.BundleType.COLLECTION);
    CarePlan plan = new CarePlan();
    plan.setId("CarePlan/plan");
    bundle.addEntry().setFullUrl("https://elsewhere.example/CarePlan/plan").setResource(plan);
    Resource other = resource(file);
    bundle
        .addEntry()
        .setFullUrl("https://elsewhere.example/" + other.fhirType() + "/other")
        .setResource(other);
    for (ReadBack back : MAPPER.treatments(bundle)) {
      assertThat(back.treatment()).isNull();
      assertThat(back.faults()).isNotEmpty().allMatch(fault -> !fault.message().isBlank());
    }
  }

  /** Either the treatment is refused for it, or it is named among what found no place. */
  @ParameterizedTest
  @MethodSource("examples")
  void amongATreatmentItIsReportedByPath(Path file) throws IOException {
    Bundle bundle = Judges.bundle(Judges.sound(), BundleForm.COLLECTION);
    String path = "Bundle.entry[" + bundle.getEntry().size() + "].resource";
    Resource foreign = resource(file);
    bundle
        .addEntry()
        .setFullUrl("https://elsewhere.example/" + foreign.fhirType() + "/other")
        .setResource(foreign);

    ReadBack back = MAPPER.fromBundle(bundle);

    boolean refusedForIt =
        back.treatment() == null
            && back.faults().stream().anyMatch(one -> one.message().contains(path));
    boolean unplaced = back.unplaced().stream().anyMatch(one -> one.expression().startsWith(path));
    assertThat(refusedForIt || unplaced).as(back.toString()).isTrue();
  }

  private static Resource resource(Path file) throws IOException {
    return (Resource)
        Judges.FHIR
            .newJsonParser()
            .parseResource(new String(Files.readAllBytes(file), StandardCharsets.UTF_8));
  }
}
