package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.InstantType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** Bundles as other systems hand them over: searched, renamed, added to, wrong. */
class OthersBundlesTest {

  private static final String SERVER = "https://records.example/fhir/";

  private final Treatment treatment = Samples.whole();

  @Test
  void aSearchSetInAnyOrderReadsAsTheSameTreatment() {
    Bundle stored = stored(Samples.bundle(treatment, BundleForm.TRANSACTION), 7);
    ReadBack back = Samples.MAPPER.fromBundle(stored);
    assertThat(back.faults()).isEmpty();
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
    assertThat(back.unplaced()).isEmpty();
  }

  @Test
  void aServersOwnNumbersForThePatientAreNotTheClinics() {
    Bundle stored = stored(Samples.bundle(treatment, BundleForm.TRANSACTION), 3);
    for (BundleEntryComponent entry : stored.getEntry()) {
      if (entry.getResource() instanceof Patient patient) {
        patient
            .getIdentifier()
            .add(0, new Identifier().setSystem("https://records.example/mrn").setValue("900"));
      }
    }
    ReadBack back = Samples.MAPPER.fromBundle(stored);
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
    assertThat(back.unplaced())
        .extracting(Unplaced::value)
        .containsExactly("https://records.example/mrn|900");
  }

  /** R4 lets an Observation be of a moment; the day is the one that is written there. */
  @Test
  void aMomentIsReadAsItsDay() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    for (BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource() instanceof Observation observation
          && observation.getEffective() instanceof DateTimeType day) {
        observation.setEffective(new InstantType(day.getValueAsString() + "T23:30:00+02:00"));
      }
    }
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.faults()).isEmpty();
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
  }

  @Test
  void aLongTextIsCutBetweenLettersAndNeverInOne() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    observation(bundle, Codes.OVERJET)
        .getSubject()
        .setDisplay("n".repeat(76) + "\uD83E\uDDB7".repeat(9));
    assertThat(Samples.MAPPER.fromBundle(bundle).unplaced())
        .extracting(Unplaced::value)
        .contains("n".repeat(76) + "...");
  }

  @Test
  void whatHasNoPlaceIsNamedByAnExpressionThatResolves() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    observation(bundle, Codes.OVERJET).addNote().setText("seen in a hurry");
    Observation other = new Observation();
    other.setStatus(Observation.ObservationStatus.FINAL);
    other.setCode(new CodeableConcept(new Coding(Codes.LOINC, "8867-4", "Heart rate")));
    bundle
        .addEntry()
        .setFullUrl("urn:uuid:0b7f7a2e-2f5c-4d7e-9d0a-0e5f2a5f9f01")
        .setResource(other);
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
    assertThat(back.unplaced())
        .hasSize(2)
        .anyMatch(u -> u.expression().endsWith(".note[0]"))
        .anyMatch(u -> u.value().equals("Observation"))
        .allSatisfy(u -> assertThat(evaluate(bundle, u.expression())).hasSize(1));
  }

  @Test
  void aValueInAnotherUnitIsAFaultWhereItStands() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    ((Quantity) observation(bundle, Codes.OVERJET).getValue()).setCode("cm").setUnit("cm");
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.treatment()).isNull();
    Finding fault = back.faults().get(0);
    assertThat(fault.code()).isEqualTo("wrong-type");
    String expression = fault.message().substring(0, fault.message().indexOf(": "));
    assertThat(evaluate(bundle, expression)).singleElement().isInstanceOf(Quantity.class);
  }

  @Test
  void aValueOutsideItsRangeIsJudgedLikeAFile() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    ((Quantity) observation(bundle, Codes.OVERJET).getValue()).setValue(99);
    observation(bundle, BiteMapper.CODE).getComponent().remove(0);
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.treatment()).isNull();
    assertThat(back.faults())
        .extracting(Finding::code)
        .containsExactlyInAnyOrder("out-of-range", "missing-member");
    assertThat(back.faults())
        .allSatisfy(
            fault -> {
              String expression = back.expression(fault.pointer()).orElseThrow();
              assertThat(fault.message()).startsWith(expression);
              assertThat(evaluate(bundle, expression)).hasSize(1);
            });
  }

  @Test
  void everyOriginResolves() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.origins()).hasSizeGreaterThan(300);
    assertThat(back.origins().entrySet())
        .filteredOn(origin -> evaluate(bundle, origin.getValue()).isEmpty())
        .isEmpty();
  }

  @Test
  void whatWasWithdrawnIsNotRead() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    for (BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource().fhirType().equals("Encounter")) {
        entry.setResource(Withdrawal.of(entry.getResource()));
      }
    }
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.treatment().reviews()).isEmpty();
  }

  @Test
  void twoTreatmentsOfOnePatientAreToldApart() {
    ObjectNode second = (ObjectNode) Samples.wholeJson();
    second.put("id", "T2");
    second.putArray("reviews");
    Bundle both = Samples.bundle(treatment, BundleForm.COLLECTION);
    Samples.bundle(Samples.read(second), BundleForm.COLLECTION).getEntry().stream()
        .filter(e -> both.getEntry().stream().noneMatch(b -> b.getFullUrl().equals(e.getFullUrl())))
        .forEach(both::addEntry);
    List<ReadBack> read = Samples.MAPPER.treatments(both);
    assertThat(read).extracting(back -> back.treatment().id()).containsExactly("T1", "T2");
    assertThat(Samples.file(read.get(0).treatment())).isEqualTo(Samples.file(treatment));
    assertThat(read.get(1).treatment().reviews()).isEmpty();
    assertThat(Samples.MAPPER.fromBundle(both).faults()).hasSize(1);
  }

  @Test
  void anotherSystemsNamesAreTaken() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.COLLECTION);
    int number = 0;
    for (BundleEntryComponent entry : bundle.getEntry()) {
      for (Identifier identifier : BundleIndex.identifiers(entry.getResource())) {
        if (identifier.getSystem().startsWith("urn:uuid:")) {
          identifier.setSystem("https://elsewhere.example/ids").setValue("x" + ++number);
        }
      }
    }
    ReadBack back = Samples.MAPPER.fromBundle(bundle);
    assertThat(back.faults()).isEmpty();
    Treatment read = back.treatment();
    assertThat(read.diagnosis()).isEqualTo(treatment.diagnosis());
    assertThat(read.reviews()).hasSameSizeAs(treatment.reviews());
    assertThat(read.reviews().get(0).trimmed()).isEqualTo(treatment.reviews().get(0).trimmed());
    assertThat(read.appliances().get(0).biteId()).isEqualTo(read.bites().get(1).id());
    assertThat(read.acceptances()).hasSameSizeAs(treatment.acceptances());
  }

  @Test
  void aBundleWithoutAPlanIsNoTreatment() {
    ReadBack back = Samples.MAPPER.fromBundle(new Bundle());
    assertThat(back.treatment()).isNull();
    assertThat(back.faults()).extracting(Finding::code).containsExactly("missing-member");
  }

  private static List<IBase> evaluate(Bundle bundle, String expression) {
    return Samples.FHIR.newFhirPath().evaluate(bundle, expression, IBase.class);
  }

  private static Observation observation(Bundle bundle, Concept code) {
    return bundle.getEntry().stream()
        .map(BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .map(Observation.class::cast)
        .filter(o -> code.isIn(o.getCode(), Canonicals.RESERVED))
        .findFirst()
        .orElseThrow();
  }

  /** As a server would answer: its own ids, relative and absolute references, any order. */
  private static Bundle stored(Bundle sent, long seed) {
    Map<String, String> ids = new HashMap<>();
    List<Resource> resources = new ArrayList<>();
    for (BundleEntryComponent entry : sent.getEntry()) {
      Resource resource = entry.getResource();
      String id = "r" + (1000 + resources.size());
      resource.setId(id);
      resource
          .getMeta()
          .setVersionId("3")
          .setLastUpdatedElement(new InstantType("2026-09-02T01:02:03Z"));
      ids.put(entry.getFullUrl(), resource.fhirType() + "/" + id);
      resources.add(resource);
    }
    int[] turn = {0};
    resources.forEach(resource -> redirect(resource, ids, turn));
    Collections.shuffle(resources, new Random(seed));
    Bundle stored = new Bundle().setType(Bundle.BundleType.SEARCHSET);
    for (Resource resource : resources) {
      stored
          .addEntry()
          .setFullUrl(SERVER + resource.fhirType() + "/" + resource.getIdElement().getIdPart())
          .setResource(resource);
    }
    return Samples.parse(Samples.json(stored));
  }

  private static void redirect(Base base, Map<String, String> ids, int[] turn) {
    if (base instanceof Reference reference && ids.containsKey(reference.getReference())) {
      String relative = ids.get(reference.getReference());
      reference.setReference(
          switch (turn[0]++ % 3) {
            case 0 -> relative;
            case 1 -> SERVER + relative;
            default -> SERVER + relative + "/_history/3";
          });
    }
    for (Property property : base.children()) {
      property.getValues().forEach(value -> redirect(value, ids, turn));
    }
  }
}
