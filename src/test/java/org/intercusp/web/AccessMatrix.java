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
          Program.OPERATOR,
          Program.AUDITOR);

  private static final String LINES =
      """
      # method and pattern                | none reads full  B   narrow registry stranger operator auditor
      GET /                               | 401 200 200 200 403 403 200 200 403
      GET /rules                          | 401 200 200 200 200 200 200 200 200
      GET /recipients                     | 401 200 200 200 200 200 200 200 200
      GET /.well-known/jwks.json          | 200 200 200 200 200 200 200 200 200
      POST /pages/deliveries/{id}/retry   | 401 403 404 302 403 403 404 302 403
      GET / @ GET /?q=zzcanaryfamily      | 401 200 200 200 403 403 200 200 403
      GET /treatments/{id}/compare        | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/saved @ GET /treatments/{id}/saved?entry=R1 | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/{list:bites|reviews}/new | 401 404 404 200 403 403 404 200 403
      POST /pages/treatments/{id}/{list:bites|reviews} | 401 403 404 200 403 403 404 200 403
      POST /pages/treatments/{id}/{list:bites|reviews}/live | 401 404 404 200 403 403 404 200 403
      GET /pages/treatments/new           | 401 403 200 200 403 403 200 200 403
      POST /pages/treatments              | 401 403 403 409 403 403 403 409 403
      POST /pages/treatments/{id}/acceptances | 401 403 404 409 403 403 404 409 403
      POST /pages/treatments/{id}/acceptances/withdraw | 401 403 404 409 403 403 404 409 403
      POST /pages/treatments/{id}/deliveries | 401 403 404 422 403 403 404 422 403
      GET /registry/report                | 401 200 200 200 403 200 200 200 200
      POST /registry/outcomes             | 401 403 202 202 403 403 403 202 403
      GET /registry/outcomes/{id}         | 401 404 404 200 403 404 404 200 200
      POST /check                         | 401 200 200 200 200 200 200 200 200
      POST /check @ CSV /check            | 401 400 400 400 403 403 400 400 403
      POST /treatments @ CSV /treatments  | 401 403 400 400 403 403 400 400 403
      GET /treatments                     | 401 200 200 200 403 403 200 200 403
      POST /treatments                    | 401 403 403 409 403 403 403 409 403
      GET /treatments/{id}                | 401 404 404 200 403 403 404 200 403
      PUT /treatments/{id}                | 401 403 404 200 403 403 404 200 403
      PUT /treatments/{id} @ DELETE /treatments/{id} | 401 403 405 405 403 403 405 405 403
      GET /treatments/{id}/history        | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/figures        | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/findings       | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/bundle         | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/summary        | 401 404 404 200 403 403 404 200 403
      GET /treatments/{id}/erasure        | 401 404 404 200 403 403 404 200 403
      POST /treatments/{id}/erasure       | 401 403 404 422 403 403 404 422 403
      GET /treatments/{id}/deliveries     | 401 404 404 200 403 403 404 200 403
      POST /treatments/{id}/deliveries    | 401 403 404 200 403 403 404 200 403
      GET /treatments/{id}/proposals      | 401 404 404 200 403 403 404 200 403
      POST /treatments/{id}/proposals/{number}/accept | 401 403 404 404 403 403 404 404 403
      POST /treatments/{id}/proposals/{number}/decline | 401 403 404 404 403 403 404 404 403
      POST /pages/treatments/{id}/proposals/{number}/accept | 401 403 404 404 403 403 404 404 403
      POST /pages/treatments/{id}/proposals/{number}/decline | 401 403 404 404 403 403 404 404 403
      GET /deliveries                     | 401 200 200 200 403 403 200 200 403
      GET /deliveries/{id}                | 401 404 404 200 403 403 404 200 403
      POST /deliveries/{id}/retry         | 401 403 404 202 403 403 404 202 403
      ANY /fhir/** @ GET /fhir/metadata   | 200 200 200 200 200 200 200 200 200
      ANY /fhir/** @ POST /fhir/$validate | 401 200 200 200 200 200 200 200 200
      ANY /fhir/** @ POST /fhir/Patient/$validate | 401 200 200 200 200 200 200 200 200
      ANY /fhir/** @ GET /fhir/Patient/{patient} | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ GET /fhir/Patient/{patient}/_history | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ GET /fhir/Patient/{patient}/_history/1 | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ GET /fhir/Patient/{patient}/$treatment-summary | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ GET /fhir/Patient/{patient}/%24treatment-summary | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ POST /fhir/Patient/{patient}/$treatment-summary | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ GET /fhir/Patient    | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Patient?_count=1 | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Patient?identifier=ZZ-CANARY-7 | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Observation?patient=Patient/{patient} | 401 200 200 200 200 403 200 200 403
      ANY /fhir/** @ GET /fhir/Observation?patient.identifier=ZZ-CANARY-7 | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Observation?code:not=32916-9&date=ge2020 | 401 200 200 200 200 403 200 200 403
      ANY /fhir/** @ GET /fhir/Observation?subject.identifier=ZZ-CANARY-7 | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ POST /fhir/Patient/_search | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ POST /fhir/Observation/%5Fsearch | 415 415 415 415 415 415 415 415 415
      ANY /fhir/** @ GET /fhir/_history   | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Patient/_history | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/Patient/{patient}/$export | 401 404 404 404 403 403 404 404 403
      ANY /fhir/** @ GET /fhir/$export    | 401 400 400 400 403 403 400 400 403
      ANY /fhir/** @ GET /fhir/Patient/$export | 401 400 400 400 403 403 400 400 403
      ANY /fhir/** @ GET /fhir/$export/{id} | 401 404 404 200 403 403 404 404 403
      ANY /fhir/** @ GET /fhir/%24export/{id} | 401 404 404 404 403 403 404 404 403
      GET /fhir/$export/{id}/{file} @ GET /fhir/$export/{id}/Patient.ndjson | 401 404 404 200 403 403 404 404 403
      ANY /fhir/** @ DELETE /fhir/$export/{id} | 401 404 404 202 403 403 404 404 403
      ANY /fhir/** @ GET /fhir/AuditEvent | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ GET /fhir/AuditEvent/{id} | 401 404 404 200 403 403 404 200 403
      ANY /fhir/** @ POST /fhir/AuditEvent/_search | 401 200 200 200 403 403 200 200 403
      ANY /fhir/** @ POST /fhir/AuditEvent | 401 403 405 405 403 403 405 405 403
      ANY /fhir                           | 401 405 405 405 403 403 405 405 403
      ANY /fhir @ POST /fhir              | 401 403 403 200 403 403 403 200 403
      ANY /fhir/                          | 401 405 405 405 403 403 405 405 403
      ANY /fhir/**                        | 401 404 404 404 403 403 404 404 403
      OPTIONS /fhir                       | 401 403 204 204 403 403 204 204 403
      OPTIONS /fhir/                      | 401 403 204 204 403 403 204 204 403
      OPTIONS /fhir/** @ OPTIONS /fhir/Patient | 401 403 204 204 403 403 204 204 403
      GET /openapi                        | 401 200 200 200 200 200 200 200 200
      GET /openapi.yaml                   | 401 200 200 200 200 200 200 200 200
      GET /actuator                       | 401 403 403 403 403 403 403 200 403
      GET /actuator/health                | 200 200 200 200 200 200 200 200 200
      GET /actuator/health/**             | 200 200 200 200 200 200 200 200 200
      GET /actuator/prometheus            | 401 403 403 403 403 403 403 200 403
      POST /backup                        | 401 403 403 403 403 403 403 200 403
      GET /export                         | 401 200 200 200 403 403 404 400 403
      GET /export @ GET /export?clinic=https://harbour-lane.example/organisations%7Cquay-side | 401 404 404 200 403 403 404 200 403
      POST /import                        | 415 415 415 415 415 415 415 415 415
      ANY /error                          | 404 404 404 404 404 404 404 404 404
      """;

  private AccessMatrix() {}

  /**
   * A line.
   *
   * @param place method and pattern as the handler mappings know them; behind {@code @} how it is
   *     auditor asked where the pattern alone does not say it
   * @param codes nobody's, then those of {@link #COLUMNS}
   */
  record Line(String place, List<Integer> codes) {

    String endpoint() {
      return place.split(" @ ", 2)[0];
    }

    private String way() {
      return place.substring(place.indexOf(" @ ") < 0 ? 0 : place.indexOf(" @ ") + 3);
    }

    String method() {
      String method = way().substring(0, way().indexOf(' '));
      return method.equals("ANY") ? "GET" : method;
    }

    /** The pattern filled with things of the second clinic. */
    String path(Map<String, String> things) {
      String pattern = way().substring(way().indexOf(' ') + 1);
      return (pattern.endsWith("/**") ? things.getOrDefault(pattern, pattern) : pattern)
          .replace("{list:bites|reviews}", "reviews")
          .replace("{number}", "1")
          .replace("{patient}", things.getOrDefault("{patient}", "nothing"))
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
