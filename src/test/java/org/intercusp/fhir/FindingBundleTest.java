package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.DetectedIssue;
import org.hl7.fhir.r4.model.DetectedIssue.DetectedIssueSeverity;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.measure.Decimal;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Findings and the document that tells a person of them; what is delivered and withdrawn. */
class FindingBundleTest {

  private final Treatment treatment = Samples.whole();

  @Test
  void anAcceptanceAnswersTheFindingItWasGivenFor() {
    List<DetectedIssue> issues = issues(share("0.73"), wear());
    assertThat(issues).hasSize(3);
    DetectedIssue share =
        issues.stream()
            .filter(DetectedIssue::hasDetail)
            .filter(DetectedIssue::hasMitigation)
            .findFirst()
            .orElseThrow();
    assertThat(share.getSeverity()).isEqualTo(DetectedIssueSeverity.HIGH);
    assertThat(share.getMitigationFirstRep().getAction().getText()).contains("without effort");
    assertThat(share.getImplicatedFirstRep().getReference())
        .isEqualTo(
            Identity.urn(
                "Observation",
                Identity.of(treatment.clinic().identifier(), "T1").identifier(Role.BITE, "B1")));
    assertThat(issues).anyMatch(i -> i.getSeverity() == DetectedIssueSeverity.MODERATE);
  }

  @Test
  void anAcceptanceOfOtherNumbersAnswersNothing() {
    List<DetectedIssue> issues = issues(share("0.80"));
    assertThat(issues).hasSize(3);
    assertThat(issues).filteredOn(DetectedIssue::hasDetail).noneMatch(DetectedIssue::hasMitigation);
  }

  @Test
  void anAcceptanceOfOtherNumbersComesBackAllTheSame() {
    Bundle bundle =
        Samples.MAPPER.toBundle(
            treatment, Samples.ON, List.of(share("0.80"), share("0.81")), BundleForm.TRANSACTION);
    ReadBack back = Samples.MAPPER.fromBundle(Samples.parse(Samples.json(bundle)));
    assertThat(back.unplaced()).isEmpty();
    assertThat(back.treatment()).isEqualTo(treatment);
  }

  @Test
  void findingsComeBackAsAcceptancesOnlyWhereTheyWereAccepted() {
    Bundle bundle =
        Samples.MAPPER.toBundle(
            treatment, Samples.ON, List.of(share("0.73"), wear()), BundleForm.TRANSACTION);
    ReadBack back = Samples.MAPPER.fromBundle(Samples.parse(Samples.json(bundle)));
    assertThat(back.faults()).isEmpty();
    assertThat(back.unplaced()).isEmpty();
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
  }

  @Test
  void aDocumentTellsAPersonEverythingItHolds() {
    Bundle bundle =
        Samples.MAPPER.toBundle(treatment, Samples.ON, List.of(wear()), BundleForm.DOCUMENT);
    Composition summary = (Composition) bundle.getEntryFirstRep().getResource();
    assertThat(summary.getType().getCodingFirstRep().getCode()).isEqualTo("34756-7");
    assertThat(summary.getSection())
        .allSatisfy(
            section -> {
              assertThat(section.getText().getDivAsString()).contains("<li>");
              assertThat(section.getEntry()).isNotEmpty();
            });
    List<String> told =
        summary.getSection().stream()
            .flatMap(section -> section.getEntry().stream())
            .map(Reference::getReference)
            .toList();
    List<String> held =
        bundle.getEntry().stream().skip(1).map(Bundle.BundleEntryComponent::getFullUrl).toList();
    assertThat(told).containsExactlyInAnyOrderElementsOf(held);
    assertThat(Samples.json(bundle)).contains("worn too little").contains("2026-09-01T00:00:00Z");
  }

  @Test
  void aTransactionCreatesWhatIsSharedAndUpdatesWhatIsOurs() {
    Bundle bundle = Samples.bundle(treatment, BundleForm.TRANSACTION);
    assertThat(bundle.getEntry())
        .allSatisfy(
            entry -> {
              boolean shared = entry.getRequest().hasIfNoneExist();
              assertThat(entry.getRequest().getMethod().toCode())
                  .isEqualTo(shared ? "POST" : "PUT");
              assertThat(entry.getRequest().getUrl().contains("?")).isNotEqualTo(shared);
              assertThat(entry.getRequest().getUrl() + entry.getRequest().getIfNoneExist())
                  .contains("%7C")
                  .doesNotContain("|");
            });
    assertThat(bundle.getEntry())
        .filteredOn(entry -> entry.getRequest().hasIfNoneExist())
        .extracting(entry -> entry.getResource().fhirType())
        .containsOnly("Patient", "Practitioner", "Organization");
  }

  @Test
  void theLedgerKnowsWhatWentAway() {
    List<Ledger.Line> before = Ledger.of(Samples.bundle(treatment, BundleForm.TRANSACTION));
    ObjectNode file = (ObjectNode) Samples.wholeJson();
    ((ArrayNode) file.get("reviews")).remove(1);
    List<Ledger.Line> now = Ledger.of(Samples.bundle(Samples.read(file), BundleForm.TRANSACTION));
    List<Ledger.Line> gone = Ledger.gone(before, now);
    assertThat(gone).isNotEmpty().allMatch(line -> line.identifier().value().contains("/R2"));
    assertThat(gone).anyMatch(line -> line.type().equals("Encounter"));
    assertThat(Ledger.gone(before, before)).isEmpty();
  }

  @Test
  void everyResourceOfOursCanBeWithdrawn() {
    for (Bundle.BundleEntryComponent entry :
        Samples.bundle(treatment, BundleForm.TRANSACTION).getEntry()) {
      if (!entry.getRequest().hasIfNoneExist()) {
        assertThat(Withdrawal.isWithdrawn(entry.getResource()))
            .as(entry.getResource().fhirType())
            .isFalse();
        assertThat(Withdrawal.isWithdrawn(Withdrawal.of(entry.getResource())))
            .as(entry.getResource().fhirType())
            .isTrue();
      }
    }
  }

  private List<DetectedIssue> issues(Finding... findings) {
    return Samples.MAPPER
        .toBundle(treatment, Samples.ON, List.of(findings), BundleForm.COLLECTION)
        .getEntry()
        .stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(DetectedIssue.class::isInstance)
        .map(DetectedIssue.class::cast)
        .toList();
  }

  private static Finding share(String share) {
    return finding(
        "bite-share-exceeded",
        Severity.ERROR,
        Pointer.of("bites", 1),
        "B1",
        Map.of("share", Decimal.of(share), "path", Decimal.of("13")));
  }

  private static Finding wear() {
    return finding("review-wear-doubt", Severity.WARNING, Pointer.of("reviews", 1), "R2", Map.of());
  }

  private static Finding finding(
      String code, Severity severity, Pointer at, String subject, Map<String, Decimal> values) {
    return new Finding(
        code,
        severity,
        at,
        subject,
        null,
        null,
        null,
        "The appliance is worn too little.",
        "Look again.",
        Source.COMMON_PRACTICE,
        values);
  }
}
