package org.intercusp.app.security;

import static org.intercusp.access.Interaction.CREATE;
import static org.intercusp.access.Interaction.DELETE;
import static org.intercusp.access.Interaction.READ;
import static org.intercusp.access.Interaction.SEARCH;
import static org.intercusp.access.Interaction.UPDATE;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.http.server.PathContainer;
import org.springframework.web.util.UriUtils;
import org.springframework.web.util.pattern.PathPattern;
import org.springframework.web.util.pattern.PathPatternParser;

/**
 * What each path asks of who comes, the first line that fits. Where people log in, a path without a
 * line is closed. A treatment file is the whole record, so it asks for every type of resource; a
 * delivery counts as a Task.
 */
final class Decisions {

  private static final String ALL = "*";
  private static final String TASK = "Task";
  private static final Need OPEN = new Need.Open();
  private static final Need KNOWN = new Need.Known();
  private static final Need READS = Need.scoped(ALL, READ);

  private record Line(String method, PathPattern path, Need need) {}

  private final List<Line> lines = new ArrayList<>();

  Decisions() {
    pages();
    treatments();
    deliveries();
    registry();
    operators();
  }

  private void pages() {
    line("GET", "/site.css", OPEN);
    line("GET", "/webjars/**", OPEN);
    line("GET", "/error", OPEN);
    // Public keys, which authorization servers elsewhere fetch.
    line("GET", "/.well-known/jwks.json", OPEN);
    line("GET", "/", Need.scoped(ALL, SEARCH));
    line("GET", "/rules", KNOWN);
    line("GET", "/recipients", KNOWN);
    line("POST", "/pages/deliveries/{id}/retry", Need.scoped(TASK, UPDATE));
    line("POST", "/pages/treatments", Need.scoped(ALL, CREATE));
    line("GET", "/pages/treatments/new", Need.scoped(ALL, CREATE));
    line(
        "POST",
        "/pages/treatments/{id}/deliveries",
        new Need.Scoped(List.of(new Need.Grant(TASK, CREATE), new Need.Grant(ALL, READ))));
    // What is typed is judged beside what is stored, and not kept.
    line("POST", "/pages/treatments/{id}/{list}/live", READS);
    line("POST", "/pages/**", Need.scoped(ALL, READ, UPDATE));
    line("GET", "/pages/**", Need.scoped(ALL, READ, SEARCH));
  }

  private void treatments() {
    line("POST", "/check", KNOWN);
    line("POST", "/treatments", Need.scoped(ALL, CREATE));
    line("GET", "/treatments", Need.scoped(ALL, SEARCH));
    line("GET", "/treatments/{id}/deliveries", Need.scoped(TASK, SEARCH));
    line(
        "POST",
        "/treatments/{id}/deliveries",
        new Need.Scoped(List.of(new Need.Grant(TASK, CREATE), new Need.Grant(ALL, READ))));
    line("POST", "/treatments/{id}/erasure", Need.scoped(ALL, DELETE));
    line("GET", "/treatments/{id}/**", READS);
    line("POST", "/treatments/{id}/proposals/{number}/*", Need.scoped(ALL, READ, UPDATE));
    line("PUT", "/treatments/{id}", Need.scoped(ALL, UPDATE));
    // Answered with 405: a record is kept, and what must go is a matter of retention.
    line("DELETE", "/treatments/{id}", Need.scoped(ALL, DELETE));
  }

  private void deliveries() {
    line("GET", "/deliveries", Need.scoped(TASK, SEARCH));
    line("GET", "/deliveries/{id}", Need.scoped(TASK, READ));
    line("POST", "/deliveries/{id}/retry", Need.scoped(TASK, UPDATE));
  }

  private void registry() {
    line("POST", "/registry/**", Need.scoped("MeasureReport", CREATE));
    line("GET", "/registry/**", Need.scoped("MeasureReport", READ));
  }

  private void operators() {
    line("GET", "/openapi/**", KNOWN);
    line("GET", "/openapi.yaml", KNOWN);
    line("GET", "/actuator/health/**", OPEN);
    line("GET", "/actuator", new Need.Operator());
    line("GET", "/actuator/prometheus", new Need.Operator());
    line("POST", "/backup", new Need.Operator());
    line("POST", "/import", new Need.Operator());
    line("GET", "/export", Need.scoped(ALL, READ, SEARCH));
  }

  /** As the door reads it: else an operation written with escapes would be taken for an id. */
  private static String decoded(String path) {
    try {
      return UriUtils.decode(path, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException e) {
      return path;
    }
  }

  private void line(String method, String path, Need need) {
    lines.add(new Line(method, PathPatternParser.defaultInstance.parse(path), need));
  }

  /** What a request asks; empty where nobody has decided. */
  Optional<Need> of(String method, String path) {
    String verb = method.equals("HEAD") ? "GET" : method;
    if (path.equals("/fhir") || path.startsWith("/fhir/")) {
      return Optional.of(FhirNeed.of(verb, decoded(path.substring("/fhir".length()))));
    }
    PathContainer place = PathContainer.parsePath(path);
    return lines.stream()
        .filter(line -> line.method().equals(verb) && line.path().matches(place))
        .map(Line::need)
        .findFirst();
  }
}
