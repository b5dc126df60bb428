package org.intercusp.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.intercusp.web.Issuer.Program;

/**
 * What is expected of every endpoint when it is asked for something of the second clinic, or for a
 * list. A new endpoint gets its line here and its decision in {@code app.security.Decisions}.
 */
final class AccessMatrix {

  /** Who comes, in the order of the columns; nobody is the first. */
  static final List<Program> COLUMNS =
      List.of(
          Program.A_READS,
          Program.A_FULL,
          Program.B_FULL,
          Program.NARROW,
          Program.REGISTRY,
          Program.STRANGER,
          Program.OPERATOR);

  private static final String LINES =
      """
      # method and pattern                | none reads full  B   narrow registry stranger operator
      GET /                               | 401 200 200 200 403 403 200 200
      GET /rules                          | 401 200 200 200 200 200 200 200
      GET /recipients                     | 401 200 200 200 200 200 200 200
      GET /.well-known/jwks.json          | 200 200 200 200 200 200 200 200
      POST /pages/deliveries/{id}/retry   | 401 403 302 302 403 403 302 302
      POST /check                         | 401 200 200 200 200 200 200 200
      GET /treatments                     | 401 200 200 200 403 403 200 200
      POST /treatments                    | 401 403 403 409 403 403 403 409
      GET /treatments/{id}                | 401 404 404 200 403 403 404 200
      PUT /treatments/{id}                | 401 403 404 200 403 403 404 200
      DELETE /treatments/{id}             | 401 403 405 405 403 403 405 405
      GET /treatments/{id}/history        | 401 404 404 200 403 403 404 200
      GET /treatments/{id}/figures        | 401 404 404 200 403 403 404 200
      GET /treatments/{id}/findings       | 401 404 404 200 403 403 404 200
      GET /treatments/{id}/bundle         | 401 404 404 200 403 403 404 200
      GET /treatments/{id}/summary        | 401 404 404 200 403 403 404 200
      GET /treatments/{id}/deliveries     | 401 404 404 200 403 403 404 200
      POST /treatments/{id}/deliveries    | 401 403 404 200 403 403 404 200
      GET /deliveries                     | 401 200 200 200 403 403 200 200
      GET /deliveries/{id}                | 401 404 404 200 403 403 404 200
      POST /deliveries/{id}/retry         | 401 403 404 202 403 403 404 202
      GET /fhir/metadata                  | 200 200 200 200 200 200 200 200
      POST /fhir/$validate                | 401 200 200 200 200 200 200 200
      POST /fhir/{type:[A-Z][A-Za-z]+}/$validate | 401 200 200 200 200 200 200 200
      GET /fhir/AuditEvent                | 401 200 200 200 403 403 200 200
      GET /fhir/AuditEvent/{id}           | 401 404 404 200 403 403 404 200
      ANY /fhir                           | 401 404 404 404 403 403 404 404
      ANY /fhir/**                        | 401 404 404 404 403 403 404 404
      GET /openapi                        | 401 200 200 200 200 200 200 200
      GET /openapi.yaml                   | 401 200 200 200 200 200 200 200
      GET /actuator                       | 401 403 403 403 403 403 403 200
      GET /actuator/health                | 200 200 200 200 200 200 200 200
      GET /actuator/health/**             | 200 200 200 200 200 200 200 200
      GET /actuator/prometheus            | 401 403 403 403 403 403 403 200
      ANY /error                          | 500 500 500 500 500 500 500 500
      """;

  private AccessMatrix() {}

  /**
   * A line.
   *
   * @param endpoint method and pattern as the handler mappings know them
   * @param codes nobody's, then those of {@link #COLUMNS}
   */
  record Line(String endpoint, List<Integer> codes) {

    String method() {
      String method = endpoint.substring(0, endpoint.indexOf(' '));
      return method.equals("ANY") ? "GET" : method;
    }

    /** The pattern filled with things of the second clinic. */
    String path(Map<String, String> things) {
      String pattern = endpoint.substring(endpoint.indexOf(' ') + 1);
      return (pattern.endsWith("/**") ? things.getOrDefault(pattern, pattern) : pattern)
          .replace("{type:[A-Z][A-Za-z]+}", "Patient")
          .replace("{id}", thing(pattern, things));
    }

    private static String thing(String pattern, Map<String, String> things) {
      return things.entrySet().stream()
          .filter(one -> pattern.startsWith(one.getKey() + "/{id}"))
          .map(Map.Entry::getValue)
          .findFirst()
          .orElse("nothing");
    }
  }

  static List<Line> lines() {
    List<Line> lines = new ArrayList<>();
    for (String text : LINES.lines().filter(line -> !line.startsWith("#")).toList()) {
      int bar = text.lastIndexOf('|');
      lines.add(
          new Line(
              text.substring(0, bar).strip(),
              List.of(text.substring(bar + 1).strip().split(" ")).stream()
                  .map(Integer::valueOf)
                  .toList()));
    }
    return lines;
  }
}
