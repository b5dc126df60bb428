package org.intercusp.web.fhir;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Every path below the base that this door answers at. What is claimed of it and what is done are
 * read off the same list.
 */
enum Route {
  METADATA("GET", "metadata", "capabilities"),
  SYSTEM_HISTORY("GET", "_history", "history-system"),
  TRANSACTION("POST", "", "transaction"),
  VALIDATE("POST", "$validate", null),
  VALIDATE_TYPE("POST", "{any}/$validate", null),
  TRAIL_READ("GET", "AuditEvent/{id}", "read"),
  TRAIL_SEARCH("GET", "AuditEvent", "search-type"),
  TRAIL_SEARCH_BY_FORM("POST", "AuditEvent/_search", null),
  READ("GET", "{type}/{id}", "read"),
  VREAD("GET", "{type}/{id}/_history/{version}", "vread"),
  INSTANCE_HISTORY("GET", "{type}/{id}/_history", "history-instance"),
  TYPE_HISTORY("GET", "{type}/_history", "history-type"),
  SEARCH("GET", "{type}", "search-type"),
  SEARCH_BY_FORM("POST", "{type}/_search", null),
  SUMMARY("GET", "Patient/{id}/$treatment-summary", null),
  SUMMARY_BY_POST("POST", "Patient/{id}/$treatment-summary", null),
  EXPORT("GET", "$export", null),
  EXPORT_OF_PATIENTS("GET", "Patient/$export", null),
  EXPORT_STATUS("GET", "$export/{id}", null),
  EXPORT_CANCEL("DELETE", "$export/{id}", null);

  private static final Pattern ANY_TYPE = Pattern.compile("[A-Z][A-Za-z]{1,63}");
  private static final Pattern ID = Pattern.compile("[A-Za-z0-9\\-.]{1,64}");
  private static final Set<String> TYPES = Offers.types();

  private final String method;
  private final String template;
  private final @Nullable String interaction;

  Route(String method, String template, @Nullable String interaction) {
    this.method = method;
    this.template = template;
    this.interaction = interaction;
  }

  /** FHIR's code of what is done here; absent for operations and second ways to the same. */
  @Nullable String interaction() {
    return interaction;
  }

  /** What a path is about. */
  enum Subject {
    /** Everything here. */
    SYSTEM,
    /** Any of the types that treatments are kept as. */
    TYPE,
    /** What was done here. */
    TRAIL
  }

  private Subject subject() {
    if (template.startsWith(Offers.TRAIL)) {
      return Subject.TRAIL;
    }
    return template.startsWith("{type}") ? Subject.TYPE : Subject.SYSTEM;
  }

  /** A path taken apart. */
  record Call(Route route, List<String> segments) {
    Call {
      segments = List.copyOf(segments);
    }

    String type() {
      return segments.get(0);
    }

    String id() {
      return segments.get(1);
    }

    String version() {
      return segments.get(3);
    }
  }

  /**
   * Finds the way a request takes.
   *
   * @param path below the base, without a slash at either end
   */
  static Call of(String method, String path) {
    List<String> segments = List.of(path.split("/", -1));
    List<Route> there = new ArrayList<>();
    for (Route route : values()) {
      if (route.fits(segments)) {
        if (route.takes(method)) {
          return new Call(route, segments);
        }
        there.add(route);
      }
    }
    throw there.isEmpty() ? nowhere(segments) : notSo(there);
  }

  private boolean takes(String asked) {
    return method.equals(asked) || (asked.equals("HEAD") && hasHead());
  }

  /** Whether what a GET gives can be asked about; an export's begins a job and gives nothing. */
  private boolean hasHead() {
    return method.equals("GET") && this != EXPORT && this != EXPORT_OF_PATIENTS;
  }

  private boolean fits(List<String> segments) {
    List<String> expected = List.of(template.split("/"));
    if (segments.size() != expected.size()) {
      return false;
    }
    for (int i = 0; i < segments.size(); i++) {
      if (!fits(expected.get(i), segments.get(i))) {
        return false;
      }
    }
    return true;
  }

  private static boolean fits(String expected, String segment) {
    return switch (expected) {
      case "{type}" -> TYPES.contains(segment);
      case "{any}" -> ANY_TYPE.matcher(segment).matches();
      case "{id}", "{version}" -> ID.matcher(segment).matches();
      default -> expected.equals(segment);
    };
  }

  /**
   * Every method that a path takes, sorted.
   *
   * @param path below the base, without a slash at either end
   */
  static Set<String> methods(String path) {
    List<String> segments = List.of(path.split("/", -1));
    List<Route> there = Arrays.stream(values()).filter(route -> route.fits(segments)).toList();
    if (there.isEmpty()) {
      throw nowhere(segments);
    }
    return methods(there);
  }

  private static Set<String> methods(List<Route> there) {
    Set<String> allowed = new TreeSet<>();
    for (Route route : there) {
      allowed.add(route.method);
      if (route.hasHead()) {
        allowed.add("HEAD");
      }
    }
    return allowed;
  }

  private static Fault notSo(List<Route> there) {
    Set<String> allowed = methods(there);
    boolean trail = there.stream().anyMatch(route -> route.subject() == Subject.TRAIL);
    return Fault.of(
            Reason.METHOD,
            "This path takes "
                + String.join(" and ", allowed)
                + (trail
                    ? ". Only the service itself records what was done, and nobody changes it."
                    : ". Resources are kept as parts of whole treatments: post a treatment Bundle"
                        + " to the base, or a treatment file to /treatments."))
        .with("Allow", String.join(", ", allowed));
  }

  private static Fault nowhere(List<String> segments) {
    String first = segments.get(0);
    boolean otherType =
        ANY_TYPE.matcher(first).matches() && !TYPES.contains(first) && !first.equals(Offers.TRAIL);
    return Fault.of(
        Reason.NOT_HERE,
        otherType
            ? "No resources of this type are kept here; see /fhir/metadata."
            : "This path does not exist; see /fhir/metadata.");
  }

  /** The interactions with one subject, in the order of the constants. */
  static List<String> interactions(Subject subject) {
    return Arrays.stream(values())
        .filter(route -> route.subject() == subject && route != METADATA)
        .map(Route::interaction)
        .filter(Objects::nonNull)
        .toList();
  }
}
