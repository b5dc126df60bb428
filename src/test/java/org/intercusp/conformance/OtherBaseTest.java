package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.utilities.npm.NpmPackage;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.intercusp.fhir.Profile;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;
import org.intercusp.finding.Finding;
import org.intercusp.registry.bundle.OutcomeBundles;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;
import org.intercusp.registry.report.form.ReportForm;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.submission.Submission;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A deployment that owns a base: all it writes stands under it, its own judge holds it against the
 * profiles there, and what stands under the reserved base is somebody else's.
 */
class OtherBaseTest {

  private static final String RESERVED = Canonicals.RESERVED.base();

  /** Begins with the reserved base, so that replacing twice would show. */
  private static final Canonicals OWN = new Canonicals(RESERVED + "/harbour-lane.v2");

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-01T12:00:00Z"), ZoneOffset.UTC);

  private static final Conformance JUDGE =
      new Conformance(Judges.FHIR, OWN, GuardLimits.DEFAULT, new Examiner(), CLOCK);

  private static final TreatmentMapper MAPPER = new TreatmentMapper(OWN);

  @ParameterizedTest
  @EnumSource
  void whatIsMappedConformsAndComesBack(BundleForm form) {
    Treatment sound = Judges.sound();
    Bundle bundle = bundle(MAPPER, sound, form);

    assertThat(Judges.stopping(JUDGE.validate(bundle))).isEmpty();
    assertThat(MAPPER.fromBundle(bundle).treatment()).isEqualTo(sound);
    assertNothingReserved(text(bundle));
  }

  @Test
  void itsProfilesAndCodesAreHeldAgainstIt() {
    Treatment whole = Judges.whole();
    String text = text(bundle(MAPPER, whole, BundleForm.TRANSACTION));
    assertThat(text).isEqualTo(OWN.rebased(text(Judges.bundle(whole, BundleForm.TRANSACTION))));
    String profile = OWN.of(Profile.OVERJET);
    String code = OWN.of(LocalSystem.STAGE_KIND) + "\",\"code\":\"";

    List<Issue> issues =
        JUDGE.validate(
            text.replace(profile, profile + "-x")
                .replace(code, code + "x")
                .getBytes(StandardCharsets.UTF_8),
            Format.JSON);

    assertThat(Judges.stopping(issues))
        .anyMatch(
            issue ->
                issue.rule().equals(FhirRule.UNKNOWN_PROFILE.code())
                    && issue.text().contains(profile + "-x"))
        .anyMatch(issue -> issue.rule().equals(FhirRule.CODE.code()));
  }

  @Test
  void theReservedBaseIsSomebodyElses() {
    Bundle foreign = Judges.bundle(Judges.sound(), BundleForm.TRANSACTION);

    assertThat(JUDGE.validate(foreign))
        .filteredOn(issue -> issue.rule().equals(FhirRule.UNKNOWN_PROFILE.code()))
        .isNotEmpty()
        .allMatch(issue -> issue.weight() == Weight.INFORMATION);
  }

  @Test
  void anOutcomeRecordConformsAndComesBack() {
    OutcomeBundles bundles = new OutcomeBundles(Judges.FHIR, OWN, CLOCK);
    Submission record = new OutcomeGenerator().records(1, 11).findFirst().orElseThrow();
    Bundle bundle = bundles.toBundle(record);

    assertThat(Judges.stopping(JUDGE.validate(bundle))).isEmpty();
    assertNothingReserved(text(bundle));
  }

  @Test
  void aReportConforms(@TempDir Path cases) throws Exception {
    OutcomeRows.write(cases, 200, 4);
    byte[] report =
        ReportForm.FHIR.write(
            Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30))), OWN);

    assertThat(Judges.stopping(JUDGE.validate(report, Format.JSON))).isEmpty();
    assertNothingReserved(new String(report, StandardCharsets.UTF_8));
  }

  @Test
  void thePackageStandsUnderIt() throws IOException {
    byte[] written = new PackageWriter(JUDGE.profiles(), Judges.FHIR).bytes();
    NpmPackage loaded = NpmPackage.fromPackage(new ByteArrayInputStream(written));

    assertThat(loaded.canonical()).isEqualTo(OWN.base());
    try (var overjet = loaded.loadByCanonical(OWN.of(Profile.OVERJET))) {
      assertThat(overjet).isNotNull();
    }
    for (String folder : List.of("package", "example", "other")) {
      for (String file : loaded.list(folder)) {
        try (var in = loaded.load(folder, file)) {
          String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
          assertThat(text.replace(OWN.base(), "")).as(file).doesNotContain(RESERVED);
        }
      }
    }
  }

  /** What R5 has no element for stands in extensions of ours. */
  @Test
  void otherReleasesComeBackFromIt() {
    Bundle bundle = bundle(MAPPER, Judges.whole(), BundleForm.COLLECTION);
    Conversion conversion = Conversion.compact(Judges.FHIR, OWN.base());
    String five = new String(conversion.json(bundle, Release.R5), StandardCharsets.UTF_8);

    assertNothingReserved(five);
    assertThat(five).contains(OWN.base() + "/StructureDefinition/r4-");
    assertThat(MAPPER.fromBundle((Bundle) conversion.fromJson(five, Release.R5)).treatment())
        .isEqualTo(Judges.whole());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "fhir",
        "urn:oid:1.2.3",
        "https://a.example/fhir/",
        "https://a.example/fhir?x=y",
        "https://a.example/fhir#x",
        "https://a.example/fh\"ir",
        "https://a.example/fh'ir",
        "https://a.example/fh ir",
        "https://a.example/fhir|1"
      })
  void whatIsNoBaseIsRefused(String base) {
    assertThatThrownBy(() -> new Canonicals(base)).isInstanceOf(IllegalArgumentException.class);
  }

  private static void assertNothingReserved(String text) {
    assertThat(text.replace(OWN.base(), "")).doesNotContain(RESERVED);
    assertThat(text).contains(OWN.base());
  }

  private static Bundle bundle(TreatmentMapper mapper, Treatment treatment, BundleForm form) {
    LocalDate on = Objects.requireNonNull(treatment.asOf());
    List<Finding> findings =
        new Examiner().examine(treatment, on).findings().stream().map(Judged::finding).toList();
    return mapper.toBundle(treatment, on, findings, form);
  }

  private static String text(Bundle bundle) {
    return Judges.FHIR.newJsonParser().encodeResourceToString(bundle);
  }
}
