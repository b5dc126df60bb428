package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.CareTeam;
import org.hl7.fhir.r4.model.DeviceRequest;
import org.hl7.fhir.r4.model.DeviceUseStatement;
import org.hl7.fhir.r4.model.Goal;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.Task;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Whoever asks a records server for what is active gets nothing that is over. */
class WhatIsOverTest {

  private static final String ENDED = "consent-without-hospital";
  private static final String RUNNING = "stage-change";

  private static Bundle bundle(String sample, Consumer<ObjectNode> change) {
    try {
      Path file = Path.of("sample-bundles", sample + ".treatment.json");
      ObjectNode tree = (ObjectNode) Samples.JSON.readTree(Files.readString(file));
      change.accept(tree);
      return Samples.bundle(Samples.read(tree), BundleForm.COLLECTION);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Bundle bundle(String sample) {
    return bundle(sample, tree -> {});
  }

  private static <R extends Resource> List<R> all(Bundle bundle, Class<R> type) {
    return bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }

  private static String name(List<Identifier> identifiers) {
    String value = identifiers.get(0).getValue();
    return value.substring(value.indexOf('/') + 1);
  }

  private static List<String> stages(Bundle bundle) {
    return all(bundle, CarePlan.class).stream()
        .filter(CarePlan::hasPartOf)
        .map(one -> name(one.getIdentifier()) + " " + one.getStatus().toCode())
        .toList();
  }

  private static List<String> orders(Bundle bundle) {
    return all(bundle, ServiceRequest.class).stream()
        .map(one -> name(one.getIdentifier()) + " " + one.getStatus().toCode())
        .toList();
  }

  private static List<String> goals(Bundle bundle) {
    return all(bundle, Goal.class).stream()
        .map(one -> name(one.getIdentifier()) + " " + one.getLifecycleStatus().toCode())
        .toList();
  }

  private static List<String> uses(Bundle bundle) {
    return all(bundle, DeviceUseStatement.class).stream()
        .map(
            one ->
                name(one.getIdentifier())
                    + " "
                    + one.getStatus().toCode()
                    + " "
                    + one.getTimingPeriod().getEndElement().getValueAsString())
        .toList();
  }

  @Test
  void ofACompletedTreatmentNothingIsActive() {
    Bundle bundle = bundle(ENDED);
    assertThat(stages(bundle))
        .containsExactly(
            "stage/active completed", "stage/support completed", "stage/retention completed");
    assertThat(orders(bundle)).hasSize(7).allMatch(one -> one.endsWith(" completed"));
    assertThat(goals(bundle)).hasSize(4).allMatch(one -> one.endsWith(" completed"));
    assertThat(all(bundle, CareTeam.class))
        .extracting(team -> team.getStatus().toCode())
        .containsExactly("inactive");
  }

  @Test
  void aTreatmentThatWasGivenUpRevokesTheStageItWasInAndThoseAhead() {
    Bundle bundle =
        bundle(
            RUNNING,
            tree ->
                tree.putObject("completion")
                    .put("status", "patient-stopped")
                    .put("decidedOn", "2026-08-31")
                    .put("lastAttendedOn", "2026-08-10"));
    assertThat(stages(bundle))
        .containsExactly(
            "stage/active completed", "stage/support revoked", "stage/retention revoked");
    assertThat(orders(bundle))
        .contains("wear-prescribed/active completed", "wear-prescribed/support revoked");
    assertThat(goals(bundle)).contains("goal/active/1 completed", "goal/support/1 cancelled");
  }

  @Test
  void whatWasOrderedAndNeverFittedIsNoLongerMadeForATreatmentThatEnded() {
    Consumer<ObjectNode> ordered =
        tree -> ((ObjectNode) tree.withArray("/appliances").get(1)).remove("fittedOn");
    assertThat(making(bundle(RUNNING, ordered))).contains("active", "requested");
    assertThat(
            making(
                bundle(
                    RUNNING,
                    ordered.andThen(
                        tree ->
                            tree.putObject("completion")
                                .put("status", "transferred")
                                .put("decidedOn", "2026-08-31")
                                .put("lastAttendedOn", "2026-08-10")))))
        .contains("revoked", "cancelled")
        .doesNotContain("active", "requested");
  }

  private static List<String> making(Bundle bundle) {
    return Stream.concat(
            all(bundle, DeviceRequest.class).stream().map(one -> one.getStatus().toCode()),
            all(bundle, Task.class).stream().map(one -> one.getStatus().toCode()))
        .toList();
  }

  @Test
  void ofATreatmentThatGoesOnTheStagesBeforeTheOneSeenLastAreCompleted() {
    Bundle bundle = bundle(RUNNING);
    assertThat(stages(bundle))
        .containsExactly(
            "stage/active completed", "stage/support active", "stage/retention active");
    assertThat(orders(bundle))
        .contains("wear-prescribed/active completed", "wear-prescribed/support active");
    assertThat(goals(bundle)).contains("goal/active/1 completed", "goal/support/1 active");
    assertThat(all(bundle, CareTeam.class))
        .extracting(team -> team.getStatus().toCode())
        .containsExactly("active");
  }

  @Test
  void anApplianceIsWornUntilTheOneOfALaterStageIsFitted() {
    assertThat(uses(bundle(RUNNING)))
        .containsExactly("use/app-1 completed 2026-06-15", "use/app-2 active null");
    assertThat(uses(bundle(ENDED)))
        .containsExactly(
            "use/app-1 completed 2024-10-21",
            "use/app-2 completed 2025-03-21",
            "use/app-3 completed 2025-12-19");
  }

  @Test
  void anApplianceIsWornUntilItsRemakeIsFittedAndTheRemakeUntilTheNextStage() {
    Bundle bundle =
        bundle(
            RUNNING,
            tree -> {
              ObjectNode remake = tree.withArray("/appliances").get(0).deepCopy().asObject();
              remake
                  .put("id", "app-1b")
                  .put("orderedOn", "2026-01-05")
                  .put("fittedOn", "2026-02-02");
              remake.withObject("/lab").put("remakeOf", "app-1").put("requiredOn", "2026-01-30");
              tree.withArray("/appliances").add(remake);
            });
    assertThat(uses(bundle))
        .containsExactlyInAnyOrder(
            "use/app-1 completed 2026-02-02",
            "use/app-1b completed 2026-06-15",
            "use/app-2 active null");
  }

  @Test
  void beforeAReviewNoStageIsBehindWhateverTheDatesOfThePlan() {
    Bundle bundle = bundle(RUNNING, tree -> tree.putArray("reviews"));
    assertThat(stages(bundle)).hasSize(3).allMatch(one -> one.endsWith(" active"));
  }

  /** The plan would have it in retention some day; what was recorded ends with the fitting. */
  @Test
  void aRecordThatSpeaksOfNoDayIsAsFarAsItTells() {
    Bundle bundle =
        bundle(
            RUNNING,
            tree -> {
              tree.remove("asOf");
              ArrayNode reviews = tree.withArray("/reviews");
              while (reviews
                  .get(reviews.size() - 1)
                  .path("stageId")
                  .stringValue()
                  .equals("support")) {
                reviews.remove(reviews.size() - 1);
              }
              ((ObjectNode) tree.withArray("/stages").get(2)).put("applianceId", "app-2");
            });
    assertThat(stages(bundle))
        .containsExactly(
            "stage/active completed", "stage/support active", "stage/retention active");
  }
}
