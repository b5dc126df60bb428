package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.context.support.ValidationSupportContext;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.StrictErrorHandler;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.PrePopulatedValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.SnapshotGeneratingValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.intercusp.fhir.Canonicals;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;

/**
 * The project's FHIR package: what stands in {@code profiles}, from the class path. Its profiles
 * are written as differentials; their snapshots are made when it is loaded, from the R4 base on the
 * class path, so that a snapshot never goes stale. They are written under the reserved base; this
 * is the one place where they come under the base of a deployment.
 */
final class ProfilesPackage {

  /** Where the build puts the folder {@code profiles}. */
  static final String FOLDER = "org/intercusp/profiles";

  private final Canonicals canonicals;
  private final List<Resource> definitions;

  private ProfilesPackage(Canonicals canonicals, List<Resource> definitions) {
    this.canonicals = canonicals;
    this.definitions = List.copyOf(definitions);
  }

  /** Reads the package and makes its snapshots. */
  static ProfilesPackage load(
      FhirContext context, DefaultProfileValidationSupport base, Canonicals canonicals) {
    IParser parser = context.newJsonParser();
    parser.setParserErrorHandler(new StrictErrorHandler());
    List<Resource> definitions = new ArrayList<>();
    for (org.springframework.core.io.Resource file : files("*-*.json")) {
      definitions.add((Resource) parser.parseResource(canonicals.rebased(text(file))));
    }
    definitions.sort(Comparator.comparing(Resource::fhirType).thenComparing(Resource::getId));
    ProfilesPackage written = new ProfilesPackage(canonicals, definitions);
    return new ProfilesPackage(canonicals, withSnapshots(written, context, base));
  }

  /** The base all of it stands under. */
  Canonicals canonicals() {
    return canonicals;
  }

  /** Every definition, profiles with snapshot, in the order of type and id. */
  List<Resource> definitions() {
    return definitions;
  }

  /** The definitions as the validator asks for them. */
  PrePopulatedValidationSupport support(FhirContext context) {
    PrePopulatedValidationSupport support = new PrePopulatedValidationSupport(context);
    definitions.forEach(support::addResource);
    return support;
  }

  private static List<Resource> withSnapshots(
      ProfilesPackage written, FhirContext context, DefaultProfileValidationSupport base) {
    SnapshotGeneratingValidationSupport generator =
        new SnapshotGeneratingValidationSupport(context);
    ValidationSupportContext chain =
        new ValidationSupportContext(
            new ValidationSupportChain(
                ValidationSupportChain.CacheConfiguration.disabled(),
                written.support(context),
                base,
                generator));
    List<Resource> made = new ArrayList<>();
    for (Resource definition : written.definitions()) {
      made.add(
          definition instanceof StructureDefinition profile
              ? withSnapshot(profile, generator, chain)
              : definition);
    }
    return made;
  }

  private static StructureDefinition withSnapshot(
      StructureDefinition profile,
      SnapshotGeneratingValidationSupport generator,
      ValidationSupportContext chain) {
    Object made =
        generator.generateSnapshot(chain, profile, profile.getUrl(), null, profile.getName());
    if (made instanceof StructureDefinition complete && complete.hasSnapshot()) {
      return complete;
    }
    throw new IllegalStateException("no snapshot could be made of " + profile.getUrl());
  }

  static List<org.springframework.core.io.Resource> files(String pattern) {
    try {
      org.springframework.core.io.Resource[] found =
          new PathMatchingResourcePatternResolver(ProfilesPackage.class.getClassLoader())
              .getResources("classpath:" + FOLDER + "/" + pattern);
      return Arrays.stream(found)
          .sorted(Comparator.comparing(r -> String.valueOf(r.getFilename())))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("the profiles package is not on the class path", e);
    }
  }

  static String text(org.springframework.core.io.Resource file) {
    try (InputStream in = file.getInputStream()) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file.getFilename(), e);
    }
  }
}
