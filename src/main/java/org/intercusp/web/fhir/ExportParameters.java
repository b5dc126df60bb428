package org.intercusp.web.fhir;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Weight;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;

/**
 * The parameters of {@code $export} (Bulk Data Access 2.0.0, query parameters). A type that is not
 * exported is a fault unless the caller says that they are lenient; a parameter that is not known
 * is left aside and named in the answer, or a fault where the caller is strict.
 *
 * @param types sorted
 * @param since absent: since ever
 * @param ignored what was left aside
 */
record ExportParameters(List<String> types, @Nullable Instant since, List<Issue> ignored) {

  private static final String TYPE = "_type";
  private static final String SINCE = "_since";
  private static final String FORMAT = "_outputFormat";
  private static final Set<String> LINES =
      Set.of("application/fhir+ndjson", "application/ndjson", "ndjson");

  ExportParameters {
    types = List.copyOf(types);
    ignored = List.copyOf(ignored);
  }

  /**
   * Reads them.
   *
   * @param offered the types that can be exported here
   * @param lenient whether the caller says so
   */
  static ExportParameters read(Asked asked, Set<String> offered, boolean lenient) {
    List<Issue> ignored = new ArrayList<>();
    Map<String, List<String>> all = asked.params();
    all.keySet().stream()
        .filter(name -> !Set.of(TYPE, SINCE, FORMAT).contains(name))
        .forEach(name -> aside("The parameter " + bounded(name), asked.strict(), ignored));
    if (!asked.elements().isEmpty()) {
      aside("The parameter _elements", asked.strict(), ignored);
    }
    if (asked.summary() != Asked.Part.FALSE) {
      aside("The parameter _summary", asked.strict(), ignored);
    }
    format(all.getOrDefault(FORMAT, List.of()));
    return new ExportParameters(
        types(all.getOrDefault(TYPE, List.of()), offered, !lenient, ignored),
        since(all.getOrDefault(SINCE, List.of())),
        ignored);
  }

  private static void aside(String what, boolean strict, List<Issue> ignored) {
    String words = what + " is not one that is exported by here; see /fhir/metadata.";
    if (strict) {
      throw Fault.of(Reason.PARAMETER, words);
    }
    ignored.add(Fault.issue(Reason.PARAMETER, Weight.WARNING, words));
  }

  private static String bounded(String name) {
    return ShortText.cut(name, LeftAside.SHOWN);
  }

  private static void format(List<String> said) {
    // A plus sign in a query is a blank to those who forgot to escape it.
    if (!said.stream().allMatch(one -> LINES.contains(one.replace(' ', '+')))) {
      throw Fault.of(Reason.PARAMETER, "_outputFormat is application/fhir+ndjson.");
    }
  }

  private static @Nullable Instant since(List<String> said) {
    if (said.size() > 1) {
      throw Fault.of(Reason.PARAMETER, "_since is said once.");
    }
    return said.isEmpty() ? null : Terms.instant(SINCE, said.get(0));
  }

  private static List<String> types(
      List<String> said, Set<String> offered, boolean strict, List<Issue> ignored) {
    if (said.isEmpty()) {
      return List.copyOf(new TreeSet<>(offered));
    }
    Set<String> wanted = new TreeSet<>();
    for (String type : said.stream().flatMap(one -> Arrays.stream(one.split(",", -1))).toList()) {
      if (offered.contains(type)) {
        wanted.add(type);
      } else {
        aside("The type " + bounded(type), strict, ignored);
      }
    }
    return List.copyOf(wanted);
  }
}
