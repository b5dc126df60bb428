package org.intercusp.web.fhir;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.intercusp.conformance.Admission;
import org.intercusp.conformance.AskedProfile;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Excerpt;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outline;
import org.intercusp.conformance.Outline.Parameter;
import org.intercusp.conformance.Weight;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * {@code $validate}: the document itself, or a resource inside Parameters. What is judged is the
 * text as it was sent, and it is not kept.
 */
@Component
class ValidateOperation {

  private static final String RESOURCE = "resource";
  private static final String PROFILE = "profile";

  /** Of the query. */
  private static final Set<String> KNOWN = Set.of(PROFILE, "mode");

  /** Of Parameters. */
  private static final Set<String> KNOWN_INSIDE = Set.of(RESOURCE, PROFILE, "mode");

  /** As many as one resource may claim. */
  private static final int MOST_PROFILES = GuardLimits.DEFAULT.profiles();

  private final Conformance conformance;
  private final Guard guard;

  ValidateOperation(Conformance conformance, Guard guard) {
    this.conformance = conformance;
    this.guard = guard;
  }

  /** Every issue; one that cannot be read at all is a fault of the request. */
  List<Issue> judge(Incoming incoming, @Nullable String type, Asked asked) {
    Reading.mustKnow(asked, KNOWN);
    Admission admission = guard.admit(incoming.bytes(), incoming.format());
    if (admission instanceof Admission.Refused refused) {
      throw Fault.of(Reason.UNREADABLE, List.of(refused.issue()));
    }
    Outline outline = Outline.of((Admission.Admitted) admission, incoming.format());
    List<Parameter> resources =
        outline.parameters().stream().filter(one -> one.name().equals(RESOURCE)).toList();
    if (resources.isEmpty()) {
      mustBe(type, outline.type());
      return conformance.validate(incoming.bytes(), incoming.format(), profiles(asked, List.of()));
    }
    Excerpt excerpt = resources.get(0).resource();
    if (resources.size() > 1 || excerpt == null) {
      throw Fault.of(Reason.UNREADABLE, "The parameter resource is given once, with a resource.");
    }
    mustBe(type, excerpt.type());
    List<Issue> issues = new ArrayList<>(aside(outline, asked));
    issues.addAll(conformance.validate(excerpt, profiles(asked, outline.parameters())));
    return issues;
  }

  private static List<AskedProfile> profiles(Asked asked, List<Parameter> parameters) {
    Stream<AskedProfile> beside =
        asked.params().getOrDefault(PROFILE, List.of()).stream().map(AskedProfile::of);
    Stream<AskedProfile> inside =
        parameters.stream()
            .filter(one -> one.name().equals(PROFILE))
            .map(ValidateOperation::profile);
    List<AskedProfile> all = Stream.concat(beside, inside).toList();
    if (all.size() > MOST_PROFILES) {
      throw Fault.of(
          Reason.PARAMETER, "At most %d profiles are judged by.".formatted(MOST_PROFILES));
    }
    return List.copyOf(new LinkedHashSet<>(all));
  }

  private static AskedProfile profile(Parameter parameter) {
    String url = parameter.value();
    if (url == null) {
      throw Fault.of(Reason.PARAMETER, "The parameter profile has the profile's URL as its value.");
    }
    return new AskedProfile(url, parameter.expression(), parameter.line(), parameter.column());
  }

  /** What Parameters ask that is not known here is named, or refused where the caller is strict. */
  private static List<Issue> aside(Outline outline, Asked asked) {
    List<Parameter> unknown =
        outline.parameters().stream().filter(one -> !KNOWN_INSIDE.contains(one.name())).toList();
    if (asked.strict() && !unknown.isEmpty()) {
      throw Fault.of(Reason.PARAMETER, "There is a parameter this path does not know.");
    }
    return unknown.stream()
        .map(
            one ->
                new Issue(
                    Weight.WARNING,
                    Reason.PARAMETER.type(),
                    Reason.PARAMETER.code(),
                    "This parameter is not known here and was left aside.",
                    one.expression(),
                    one.name(),
                    one.line(),
                    one.column()))
        .toList();
  }

  private static void mustBe(@Nullable String type, @Nullable String sent) {
    // One that says no type is judged, which says that much better.
    if (type != null && sent != null && !type.equals(sent)) {
      throw Fault.of(
          Reason.UNREADABLE,
          "The path names a " + type + ", the body another type of resource.",
          sent);
    }
  }
}
