package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.context.support.IValidationSupport.IssueSeverity;
import ca.uhn.fhir.parser.LenientErrorHandler;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.SingleValidationMessage;
import ca.uhn.fhir.validation.ValidationOptions;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Measure;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.hl7.fhir.r5.utils.validation.constants.BestPracticeWarningLevel;
import org.jspecify.annotations.Nullable;

/**
 * The FHIR layer: base, our profiles, terminology held in memory, units. It reaches no network.
 *
 * <p>Codes it does not know: a code outside one of our own or HL7's complete code systems is an
 * error; a unit that is not UCUM is an error; a code of LOINC, SNOMED CT or ISO 3950 beyond the
 * fragment we hold, and a code of a system we hold nothing of, is a warning, since it may well be
 * right. A profile of somebody else that is claimed and not held is said as information; an unknown
 * one under our own base is an error.
 */
final class GeneralValidator {

  /** What the validator says of its own working. */
  private static final Pattern ASIDE = Pattern.compile("(?i)details_for_.*");

  /**
   * What the validator says where white space comes before the root. An encoding that is not
   * declared is UTF-8 (XML 1.0, 4.3.3), and the guard has read it as that.
   */
  private static final String UNDECLARED = "(must be UTF-8, not 'null')";

  /** {@link Fragments} says it with the code's own place. */
  private static final String FRAGMENT = "Unknown code in fragment CodeSystem";

  /** What is said of the whole Bundle, though it is of an element that the text names. */
  private static final Pattern WITHIN =
      Pattern.compile("(Can't find '.*' in the bundle) \\((Bundle\\.[^()]+)\\)", Pattern.DOTALL);

  /** What is said of every Measure, since the library is given none. */
  private static final Pattern MEASURE =
      Pattern.compile("The Measure '([^'|]*)[^']*' could not be resolved.*", Pattern.DOTALL);

  private static final String GROUPS =
      "A report is not held against the groups of its Measure here, since figures may be withheld.";

  private final FhirContext context;
  private final FhirValidator validator;
  private final ValidationSupportChain definitions;

  /** How a canonical of ours begins where the validator quotes it. */
  private final String ours;

  private final Set<String> measures;

  GeneralValidator(
      FhirContext context,
      DefaultProfileValidationSupport base,
      ProfilesPackage profiles,
      Fragments fragments) {
    this.context = context;
    this.ours = "'" + profiles.canonicals().base() + "/";
    this.measures =
        profiles.definitions().stream()
            .filter(Measure.class::isInstance)
            .map(held -> ((Measure) held).getUrl())
            .collect(Collectors.toUnmodifiableSet());
    InMemoryTerminologyServerValidationSupport memory =
        new InMemoryTerminologyServerValidationSupport(context);
    memory.setIssueSeverityForCodeDisplayMismatch(IssueSeverity.WARNING);
    PrePopulatedValidationSupport held = profiles.support(context);
    fragments.systems().forEach(held::addCodeSystem);
    ValidationSupportChain chain =
        new ValidationSupportChain(
            held, base, new CommonCodeSystemsTerminologyService(context), memory);
    // A coding beside the one a value set asks for is welcome; each is judged on its own as well.
    chain.setCodeableConceptValidationSuccessfulIfNotAllCodingsAreValid(true);
    this.definitions = chain;
    FhirInstanceValidator module = new FhirInstanceValidator(chain);
    module.setBestPracticeWarningLevel(BestPracticeWarningLevel.Ignore);
    module.setErrorForUnknownProfiles(false);
    module.setAnyExtensionsAllowed(true);
    module.setNoExtensibleWarnings(false);
    this.validator =
        context
            .newValidator()
            .setValidateAgainstStandardSchema(false)
            .setValidateAgainstStandardSchematron(false)
            .registerValidatorModule(module);
  }

  /**
   * Whether there is a profile of this canonical; where a version is asked for, of that version.
   */
  boolean holds(String profile) {
    String[] parts = profile.split("\\|", 2);
    return definitions.fetchStructureDefinition(parts[0]) instanceof StructureDefinition held
        && (parts.length == 1 || parts[1].equals(held.getVersion()));
  }

  /** Judges one admitted document, whole. */
  List<Issue> validate(String document, @Nullable Resource root, Set<String> profiles) {
    ValidationOptions options = new ValidationOptions();
    profiles.forEach(options::addProfile);
    Set<List<@Nullable Object>> said = new HashSet<>();
    return validator.validateWithResult(document, options).getMessages().stream()
        .filter(message -> !ASIDE.matcher(String.valueOf(message.getMessageId())).matches())
        .filter(message -> !message.getMessage().contains(FRAGMENT))
        .filter(message -> !message.getMessage().contains(UNDECLARED))
        .filter(message -> !isOfVersions(message, root))
        .map(message -> issue(message, root))
        .sorted(Issue.ORDER)
        .filter(issue -> said.add(sameness(issue)))
        .toList();
  }

  /** A history holds one resource many times (FHIR R4, bdl-7), so a reference fits many. */
  private static boolean isOfVersions(SingleValidationMessage message, @Nullable Resource root) {
    return message.getMessage().startsWith("Multiple matches in bundle for reference")
        && root instanceof Bundle bundle
        && bundle.getType() == Bundle.BundleType.HISTORY;
  }

  /** What a document says as a resource; nothing where it says none that could be read. */
  @Nullable Resource parsed(String document, Format format) {
    try {
      var parser = format == Format.JSON ? context.newJsonParser() : context.newXmlParser();
      parser.setParserErrorHandler(new LenientErrorHandler(false).disableAllErrors());
      return (Resource) parser.parseResource(document);
    } catch (RuntimeException e) {
      // Most often a DataFormatException; at some values the library fails otherwise. The validator
      // says why; there is no element to point to.
      return null;
    }
  }

  // The validator says a wrong code or a differing value once for each rule it breaks by it, and a
  // profile it does not hold at every resource that claims it.
  private static List<@Nullable Object> sameness(Issue issue) {
    if (issue.rule().equals(FhirRule.UNKNOWN_PROFILE.code())) {
      return Arrays.asList(issue.rule(), issue.text());
    }
    boolean once =
        issue.rule().equals(FhirRule.CODE.code()) || issue.rule().equals(FhirRule.PATTERN.code());
    return once
        ? Arrays.asList(issue.rule(), issue.expression(), issue.line(), issue.column())
        : List.of(issue);
  }

  private Issue issue(SingleValidationMessage message, @Nullable Resource root) {
    String said = message.getMessage();
    // Where these stand in the text is told by their expression, as for all that is ours.
    Matcher within = WITHIN.matcher(said);
    if (root instanceof Bundle && within.matches()) {
      String place = Expressions.resolving(root, within.group(2));
      return issue(message, within.group(1), root, place, null, null);
    }
    Matcher measure = MEASURE.matcher(said);
    if (root != null && measure.matches() && measures.contains(measure.group(1))) {
      String place = Expressions.resolving(root, message.getLocationString() + ".measure");
      String value = Expressions.value(root, place);
      String rule = FhirRule.OTHER.code();
      return new Issue(Weight.INFORMATION, "informational", rule, GROUPS, place, value, null, null);
    }
    String location = message.getLocationString();
    return issue(
        message,
        said,
        root,
        root == null || location == null ? null : Expressions.resolving(root, location),
        positive(message.getLocationLine()),
        positive(message.getLocationCol()));
  }

  private Issue issue(
      SingleValidationMessage message,
      String text,
      @Nullable Resource root,
      @Nullable String expression,
      @Nullable Integer line,
      @Nullable Integer column) {
    FhirRule rule = FhirRule.of(message);
    return new Issue(
        weight(message),
        rule.type(),
        rule.code(),
        text,
        expression,
        root == null || expression == null ? null : Expressions.value(root, expression),
        line,
        column);
  }

  private Weight weight(SingleValidationMessage message) {
    if (FhirRule.of(message) == FhirRule.UNKNOWN_PROFILE) {
      return message.getMessage().contains(ours) ? Weight.ERROR : Weight.INFORMATION;
    }
    return switch (message.getSeverity()) {
      case FATAL -> Weight.FATAL;
      case ERROR -> Weight.ERROR;
      case WARNING -> Weight.WARNING;
      case INFORMATION -> Weight.INFORMATION;
    };
  }

  private static @Nullable Integer positive(@Nullable Integer number) {
    return number == null || number < 1 ? null : number;
  }
}
