package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.utilities.http.ManagedWebAccess;
import org.hl7.fhir.utilities.http.ManagedWebAccess.WebAccessPolicy;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.FaultPlace;
import org.intercusp.rules.Examiner;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Judges FHIR R4 documents offline: the guard first, then FHIR conformance, then the trade rules on
 * what a Bundle says of a treatment. Issues come sorted, and the same document always gives the
 * same list.
 *
 * <p>One instance serves many threads. The first of a FhirContext takes seconds to make and {@link
 * #warm()} some more, so a service makes one at its start.
 */
public final class Conformance {

  private static final Logger LOG = LoggerFactory.getLogger(Conformance.class);

  private static final Issue UNJUDGED =
      new Issue(
          Weight.FATAL,
          "exception",
          FhirRule.OTHER.code(),
          "The validator failed at this document, so it is refused unjudged. Only FHIR 4.0 (R4) is"
              + " judged here.",
          null,
          null,
          null,
          null);

  private static final Issue UNREAD =
      new Issue(
          Weight.ERROR,
          "exception",
          FhirRule.OTHER.code(),
          "What this says of a treatment could not be read, so the trade's rules were not run on it.",
          "Bundle",
          null,
          null,
          null);

  private final FhirContext context;
  private final Guard guard;
  private final Definitions definitions;
  private final TradeRules trade;
  private final Places places;
  private final DeepThreads threads;
  private final Passed passed;

  /**
   * A judge with the profiles of the reserved base and the usual limits.
   *
   * @param clock for the day of a treatment that does not say which day it speaks of
   */
  public Conformance(FhirContext context, GuardLimits limits, Clock clock) {
    this(context, Canonicals.RESERVED, limits, new Examiner(), clock);
  }

  /**
   * A judge for a clinic: what its own mapper writes and its own check lets pass must be able to
   * leave.
   *
   * @param canonicals under which the profiles stand and treatments are read back
   * @param examiner whose rules the treatments in a Bundle are held against
   */
  public Conformance(
      FhirContext context,
      Canonicals canonicals,
      GuardLimits limits,
      Examiner examiner,
      Clock clock) {
    // The libraries would look for packages they lack; a judge that goes to the network for what
    // somebody submitted is neither offline nor safe.
    ManagedWebAccess.setAccessPolicy(WebAccessPolicy.PROHIBITED);
    this.context = context;
    this.guard = new Guard(limits);
    this.definitions = Definitions.of(context, canonicals);
    this.trade = new TradeRules(new TreatmentMapper(canonicals), examiner, clock);
    this.places = new Places(limits);
    this.threads = new DeepThreads();
    this.passed = new Passed();
  }

  private Conformance(Conformance other, LocalDate on) {
    this.context = other.context;
    this.guard = other.guard;
    this.definitions = other.definitions;
    this.trade = other.trade.on(on);
    this.places = other.places;
    this.threads = other.threads;
    this.passed = other.passed;
  }

  /** The same judge on a day, whatever day a record speaks of. */
  public Conformance on(LocalDate day) {
    return new Conformance(this, day);
  }

  /** Judges a document by what its resources claim. */
  public List<Issue> validate(byte[] document, Format format) {
    return validate(document, format, List.of());
  }

  /** Judges a document also by the profiles asked for, whatever its root claims. */
  public List<Issue> validate(byte[] document, Format format, List<AskedProfile> profiles) {
    List<Issue> issues = unknown(profiles);
    issues.addAll(judge(document, format, known(profiles)));
    return sorted(issues);
  }

  /** The same for a resource inside a document; what is said is said of that document. */
  public List<Issue> validate(Excerpt excerpt, List<AskedProfile> profiles) {
    List<Issue> issues = unknown(profiles);
    judge(excerpt.bytes(), excerpt.format(), known(profiles)).stream()
        .map(excerpt::ofWhole)
        .forEach(issues::add);
    return sorted(issues);
  }

  private List<Issue> unknown(List<AskedProfile> profiles) {
    return profiles.stream()
        .filter(profile -> !definitions.general().holds(profile.url()))
        .map(AskedProfile::unknown)
        .collect(Collectors.toCollection(ArrayList::new));
  }

  private Set<String> known(List<AskedProfile> profiles) {
    return profiles.stream()
        .map(AskedProfile::url)
        .filter(definitions.general()::holds)
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  private List<Issue> judge(byte[] document, Format format, Set<String> alsoProfiles) {
    Admission admission = guard.admit(document, format);
    if (admission instanceof Admission.Refused refused) {
      return List.of(refused.issue());
    }
    String text = ((Admission.Admitted) admission).text();
    try {
      return threads.run(() -> judged(text, format, alsoProfiles));
    } catch (DeepThreads.Interrupted e) {
      // Else a stop of the service would hold a delivery for a fault it does not have.
      throw e;
    } catch (RuntimeException e) {
      // The general validator fails at some documents; what could not be judged is not let through.
      LOG.warn("a document could not be judged: {}", FaultPlace.of(e));
      return List.of(UNJUDGED);
    }
  }

  /** Judges a resource in memory; its issues have no line and column. */
  public List<Issue> validate(Resource resource) {
    return validate(json(resource));
  }

  private byte[] json(Resource resource) {
    return context
        .newJsonParser()
        .encodeResourceToString(resource)
        .getBytes(StandardCharsets.UTF_8);
  }

  private List<Issue> validate(byte[] json) {
    return sorted(validate(json, Format.JSON).stream().map(issue -> issue.at(null)).toList());
  }

  /**
   * Lets a Bundle leave only when it conforms. The same Bundle is judged once a day.
   *
   * @throws NotConformant with every issue, when one of them stops it
   */
  public void mustPass(Bundle bundle) {
    byte[] json = json(bundle);
    String name = Passed.name(json, trade.today());
    if (passed.holds(name)) {
      return;
    }
    List<Issue> issues = validate(json);
    if (issues.stream().anyMatch(issue -> issue.weight().stops())) {
      throw new NotConformant(issues);
    }
    passed.add(name);
  }

  /** Loads what the first judgement would otherwise load. */
  public void warm() {
    Patient patient = new Patient();
    patient.addIdentifier().setSystem("urn:oid:2.16.840.1").setValue("0");
    Bundle bundle = new Bundle().setType(Bundle.BundleType.COLLECTION);
    bundle
        .addEntry()
        .setFullUrl("urn:uuid:5d2f3c1e-8f5b-5a0e-9d0a-2c5d1f6f7a01")
        .setResource(patient);
    for (Format format : Format.values()) {
      String text =
          (format == Format.JSON ? context.newJsonParser() : context.newXmlParser())
              .encodeResourceToString(bundle);
      validate(text.getBytes(StandardCharsets.UTF_8), format);
    }
  }

  ProfilesPackage profiles() {
    return definitions.profiles();
  }

  private List<Issue> judged(String text, Format format, Set<String> alsoProfiles) {
    Resource root = definitions.general().parsed(text, format);
    List<Issue> issues = definitions.general().validate(text, root, alsoProfiles);
    if (root == null) {
      // What nobody could read passes only if somebody said why it does not.
      return issues.stream().anyMatch(issue -> issue.weight().stops())
          ? sorted(issues)
          : List.of(UNJUDGED);
    }
    List<Issue> all = new ArrayList<>(issues);
    all.addAll(definitions.fragments().unjudged(root));
    if (root instanceof Bundle bundle) {
      all.addAll(traded(bundle));
    }
    return sorted(located(all, text, format));
  }

  // What FHIR itself has to say of a Bundle is said even where the treatment cannot be read from
  // it.
  private List<Issue> traded(Bundle bundle) {
    try {
      return trade.judge(bundle);
    } catch (RuntimeException e) {
      LOG.warn("a treatment could not be read: {}", FaultPlace.of(e));
      return List.of(UNREAD);
    }
  }

  private List<Issue> located(List<Issue> issues, String text, Format format) {
    Set<String> expressions =
        issues.stream()
            .filter(issue -> issue.line() == null)
            .map(Issue::expression)
            .filter(Objects::nonNull)
            .collect(Collectors.toSet());
    if (expressions.isEmpty()) {
      return issues;
    }
    Map<String, @Nullable Spot> spots = Map.copyOf(places.of(expressions, text, format));
    return issues.stream()
        .map(
            issue ->
                issue.expression() == null || issue.line() != null
                    ? issue
                    : issue.at(spots.get(issue.expression())))
        .toList();
  }

  private static List<Issue> sorted(List<Issue> issues) {
    return issues.stream().sorted(Issue.ORDER).distinct().toList();
  }
}
