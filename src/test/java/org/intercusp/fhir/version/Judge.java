package org.intercusp.fhir.version;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r5.utils.validation.constants.BestPracticeWarningLevel;
import org.intercusp.fhir.Canonicals;

/** The general validator of another release, with that release's definitions, offline. */
final class Judge {

  private final FhirValidator validator;

  Judge(Release release) throws IOException {
    FhirContext context =
        release == Release.R5 ? FhirContext.forR5Cached() : FhirContext.forR4BCached();
    PrePopulatedValidationSupport ours = new PrePopulatedValidationSupport(context);
    Conversion conversion = Conversion.compact(Treatments.FHIR, Canonicals.RESERVED.base());
    try (Stream<Path> files = Files.list(Path.of("profiles"))) {
      for (Path file : files.sorted().toList()) {
        if (file.getFileName().toString().startsWith("CodeSystem-")) {
          Resource system = conversion.fromJson(Files.readString(file), Release.R4);
          ours.addResource(
              context
                  .newJsonParser()
                  .parseResource(
                      new String(conversion.json(system, release), StandardCharsets.UTF_8)));
        }
      }
    }
    FhirInstanceValidator module =
        new FhirInstanceValidator(
            new ValidationSupportChain(
                ours,
                new DefaultProfileValidationSupport(context),
                new CommonCodeSystemsTerminologyService(context),
                new InMemoryTerminologyServerValidationSupport(context)));
    module.setAnyExtensionsAllowed(true);
    module.setErrorForUnknownProfiles(false);
    module.setBestPracticeWarningLevel(BestPracticeWarningLevel.Ignore);
    validator = context.newValidator().registerValidatorModule(module);
  }

  List<String> errors(byte[] text) {
    return validator
        .validateWithResult(new String(text, StandardCharsets.UTF_8))
        .getMessages()
        .stream()
        .filter(m -> m.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
        .map(m -> m.getLocationString() + ": " + m.getMessage())
        .toList();
  }
}
