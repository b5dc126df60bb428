package org.intercusp.fhir.version;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import ca.uhn.fhir.parser.DataFormatException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Consent;
import org.hl7.fhir.r4.model.Media;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r5.model.Enumerations.ConsentProvisionType;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.Withdrawal;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** R4B and R5 by the validators of R4B and R5, and what comes back from them. */
@Tag("steady")
class ConversionTest {

  private static final Five FIVE = new Five(new Carried(Canonicals.RESERVED.base()));
  private static final Conversion CONVERSION =
      Conversion.compact(Treatments.FHIR, Canonicals.RESERVED.base());
  private static final Map<Release, Judge> JUDGES = new EnumMap<>(Release.class);

  @BeforeAll
  static void judges() throws IOException {
    JUDGES.put(Release.R4B, new Judge(Release.R4B));
    JUDGES.put(Release.R5, new Judge(Release.R5));
  }

  @ParameterizedTest
  @EnumSource(names = "R4", mode = EnumSource.Mode.EXCLUDE)
  void aTreatmentWithEveryMemberIsValidThere(Release release) {
    for (BundleForm form : List.of(BundleForm.TRANSACTION, BundleForm.DOCUMENT)) {
      assertThat(errors(Treatments.bundle(Treatments.whole(), form), release)).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(names = "R4", mode = EnumSource.Mode.EXCLUDE)
  @Tag("long")
  void everySampleIsValidThereInEveryForm(Release release) {
    for (Treatment treatment : Treatments.samples()) {
      for (BundleForm form : BundleForm.values()) {
        assertThat(errors(Treatments.bundle(treatment, form), release))
            .as(treatment.id() + " " + form)
            .isEmpty();
      }
    }
  }

  @ParameterizedTest
  @EnumSource(names = "R4", mode = EnumSource.Mode.EXCLUDE)
  void whatIsWithdrawnIsValidThere(Release release) {
    Bundle bundle = Treatments.bundle(Treatments.whole(), BundleForm.TRANSACTION);
    for (BundleEntryComponent entry : bundle.getEntry()) {
      if (!entry.getRequest().hasIfNoneExist()) {
        entry.setResource(Withdrawal.of(entry.getResource()));
      }
    }
    assertThat(errors(bundle, release)).isEmpty();
    assertThat(json(thereAndBack(bundle, release))).isEqualTo(json(bundle));
  }

  @ParameterizedTest
  @EnumSource(names = "R4", mode = EnumSource.Mode.EXCLUDE)
  void theJudgesWouldSayOtherwise(Release release) {
    Bundle bundle = Treatments.bundle(Treatments.whole(), BundleForm.COLLECTION);
    for (BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource() instanceof CarePlan plan) {
        plan.setStatus(null);
      }
    }
    assertThat(errors(bundle, release)).isNotEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void nothingIsLostOnTheWayThereAndBack(Release release) {
    List<Treatment> all = new ArrayList<>(Treatments.samples());
    all.addAll(Treatments.generated(10));
    for (int i = 0; i < all.size(); i++) {
      BundleForm form = BundleForm.values()[i % BundleForm.values().length];
      comesBack(Treatments.bundle(all.get(i), form), release);
    }
  }

  @ParameterizedTest
  @EnumSource
  @Tag("long")
  void twoHundredAreValidThereAndComeBack(Release release) {
    int tried = 0;
    for (Treatment treatment : Treatments.generated(200)) {
      Bundle bundle = Treatments.bundle(treatment, BundleForm.TRANSACTION);
      if (release != Release.R4) {
        assertThat(errors(bundle, release)).as(treatment.id()).isEmpty();
      }
      comesBack(bundle, release);
      tried++;
    }
    assertThat(tried).isEqualTo(200);
  }

  @ParameterizedTest
  @EnumSource
  void aTreatmentComesBackFromXmlToo(Release release) {
    Treatment whole = Treatments.whole();
    Bundle bundle = Treatments.bundle(whole, BundleForm.COLLECTION);
    String xml = new String(CONVERSION.xml(bundle, release), UTF_8);
    ReadBack back = Treatments.MAPPER.fromBundle((Bundle) CONVERSION.fromXml(xml, release));
    assertThat(back.unplaced()).isEmpty();
    assertThat(back.treatment()).isEqualTo(whole);
  }

  @Test
  void whoGivesAConsentGrantsItInR5() {
    Consent consent = new Consent();
    consent.addPerformer().setDisplay("Petra Dunmore (mother)");
    var five = (org.hl7.fhir.r5.model.Consent) FIVE.up(consent);
    assertThat(five.getGrantor()).extracting("display").hasToString("[Petra Dunmore (mother)]");
    assertThat(five.getGrantee()).isEmpty();
    five.addGrantee().setDisplay("The hospital");
    Consent four = (Consent) FIVE.down(five);
    assertThat(four.getPerformer())
        .extracting("display")
        .hasToString("[Petra Dunmore (mother), The hospital]");
  }

  @Test
  void whatIsPermittedWithinBoundsIsARefusalWithAnExceptionInR5() {
    Consent consent = new Consent();
    consent.getProvision().setType(Consent.ConsentProvisionType.PERMIT).addCode().setText("x");
    var five = (org.hl7.fhir.r5.model.Consent) FIVE.up(consent);
    assertThat(five.getDecision()).isEqualTo(ConsentProvisionType.DENY);
    assertThat(five.getProvisionFirstRep().getCodeFirstRep().getText()).isEqualTo("x");

    consent.getProvision().setType(Consent.ConsentProvisionType.DENY);
    five = (org.hl7.fhir.r5.model.Consent) FIVE.up(consent);
    assertThat(five.getDecision()).isEqualTo(ConsentProvisionType.DENY);
    assertThat(five.hasProvision()).as("an exception from a refusal would permit").isFalse();
  }

  @Test
  void anAppliancesUseIsADeviceUsageAndWhatPointsToItSaysSo() {
    Bundle bundle = Treatments.bundle(Treatments.whole(), BundleForm.TRANSACTION);
    String five = new String(CONVERSION.json(bundle, Release.R5), UTF_8);
    assertThat(five).contains("\"DeviceUsage\"", "DeviceUsage?identifier=");
    assertThat(five).doesNotContain("DeviceUseStatement?", "\"DeviceUseStatement\"");
    assertThat(Release.R5.typeName("DeviceUseStatement")).isEqualTo("DeviceUsage");
    assertThat(Release.R5.typeNameInR4("DeviceUsage")).isEqualTo("DeviceUseStatement");
  }

  @Test
  void anImageIsADocument() {
    Media media = new Media();
    media.setStatus(Media.MediaStatus.COMPLETED);
    media.getContent().setContentType("image/png").setTitle("profile view");
    media.getSubject().setReference("Patient/1");
    media.setHeight(480).getView().setText("lateral");
    var five = (org.hl7.fhir.r5.model.DocumentReference) FIVE.up(media);
    assertThat(five.getContentFirstRep().getAttachment().getTitle()).isEqualTo("profile view");
    assertThat(five.getContentFirstRep().getAttachment().getHeight()).isEqualTo(480);
    assertThat(five.getSubject().getReference()).isEqualTo("Patient/1");
    assertThat(five.getExtension().get(0).getUrl()).endsWith("Media.view");
    assertThat(JUDGES.get(Release.R5).errors(CONVERSION.json(media, Release.R5))).isEmpty();
  }

  @Test
  void whatCannotBeConvertedIsRefused() {
    AdverseEvent event = new AdverseEvent();
    event.addSuspectEntity().addCausality().setProductRelatedness("likely");
    assertThatThrownBy(() -> CONVERSION.json(event, Release.R5))
        .isInstanceOf(DataFormatException.class)
        .hasMessageContaining("AdverseEvent");
  }

  @Test
  void aReleaseIsKnownByItsVersion() {
    assertThat(Release.of("4.0.1")).contains(Release.R4);
    assertThat(Release.of("4.3")).contains(Release.R4B);
    assertThat(Release.of("5.0.0")).contains(Release.R5);
    assertThat(Release.of("3.0.2")).isEmpty();
    assertThat(Release.of("4.1.0")).isEmpty();
    assertThat(Release.of("5.0.0-ballot")).isEmpty();
    assertThat(Release.of("")).isEmpty();
  }

  private static void comesBack(Bundle bundle, Release release) {
    assertThat(json(thereAndBack(bundle, release))).isEqualTo(json(bundle));
  }

  private static Bundle thereAndBack(Bundle bundle, Release release) {
    return (Bundle)
        CONVERSION.fromJson(new String(CONVERSION.json(bundle, release), UTF_8), release);
  }

  private static List<String> errors(Bundle bundle, Release release) {
    return JUDGES.get(release).errors(CONVERSION.json(bundle, release));
  }

  /** Resource by resource, without the claims of R4 profiles. */
  private static List<String> json(Bundle bundle) {
    Bundle copy = bundle.copy();
    copy.setMeta(null);
    List<String> said = new ArrayList<>();
    for (BundleEntryComponent entry : copy.getEntry()) {
      Resource resource = entry.getResource();
      resource.getMeta().getProfile().clear();
      resource.setId((String) null);
      said.add(Treatments.FHIR.newJsonParser().encodeResourceToString(resource));
      entry.setResource(null);
    }
    said.add(Treatments.FHIR.newJsonParser().encodeResourceToString(copy));
    return said;
  }
}
