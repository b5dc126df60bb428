package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.Observation;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What we write is R4 by the general validator, with our code systems and without our profiles. */
class BaseConformanceTest {

  private static FhirValidator validator;

  @BeforeAll
  static void build() throws Exception {
    PrePopulatedValidationSupport ours = new PrePopulatedValidationSupport(Samples.FHIR);
    try (Stream<Path> files = Files.list(Path.of("profiles"))) {
      for (Path file : files.sorted().toList()) {
        if (file.getFileName().toString().startsWith("CodeSystem-")) {
          ours.addCodeSystem(
              Samples.FHIR.newJsonParser().parseResource(CodeSystem.class, Files.readString(file)));
        }
      }
    }
    FhirInstanceValidator module =
        new FhirInstanceValidator(
            new ValidationSupportChain(
                ours,
                new DefaultProfileValidationSupport(Samples.FHIR),
                new CommonCodeSystemsTerminologyService(Samples.FHIR),
                new InMemoryTerminologyServerValidationSupport(Samples.FHIR)));
    module.setAnyExtensionsAllowed(true);
    module.setErrorForUnknownProfiles(false);
    validator = Samples.FHIR.newValidator().registerValidatorModule(module);
  }

  @ParameterizedTest
  @EnumSource
  void aWholeTreatmentIsR4(BundleForm form) {
    Bundle bundle = Samples.bundle(Samples.whole(), form);
    assertThat(errors(bundle)).isEmpty();
  }

  @Test
  void whatIsWithdrawnIsStillR4() {
    Bundle bundle = Samples.bundle(Samples.whole(), BundleForm.TRANSACTION);
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      if (!entry.getRequest().hasIfNoneExist()) {
        entry.setResource(Withdrawal.of(entry.getResource()));
      }
    }
    assertThat(errors(bundle)).isEmpty();
  }

  @Test
  void theValidatorWouldSayOtherwise() {
    Bundle bundle = Samples.bundle(Samples.whole(), BundleForm.COLLECTION);
    bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .map(Observation.class::cast)
        .forEach(observation -> observation.setStatus(null));
    assertThat(errors(bundle)).isNotEmpty();
  }

  private static List<String> errors(Bundle bundle) {
    return validator.validateWithResult(Samples.json(bundle)).getMessages().stream()
        .filter(m -> m.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .map(BaseConformanceTest::shown)
        .toList();
  }

  private static String shown(SingleValidationMessage message) {
    return message.getLocationString() + ": " + message.getMessage();
  }
}
