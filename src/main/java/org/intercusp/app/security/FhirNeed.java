package org.intercusp.app.security;

import static org.intercusp.access.Interaction.CREATE;
import static org.intercusp.access.Interaction.DELETE;
import static org.intercusp.access.Interaction.READ;
import static org.intercusp.access.Interaction.SEARCH;
import static org.intercusp.access.Interaction.UPDATE;

import java.util.List;
import java.util.stream.Stream;
import org.intercusp.access.Interaction;

/**
 * What a FHIR interaction asks, from its method and path (FHIR R4, RESTful API, summary). What
 * concerns the whole system asks for every type. Resources of other types that an answer includes
 * are for the door to leave out: it knows them, the path does not.
 */
final class FhirNeed {

  private static final String ALL = "*";
  private static final Need EVERYTHING = Need.scoped(ALL, Interaction.values());

  private FhirNeed() {}

  /**
   * The need.
   *
   * @param method with HEAD as GET
   * @param path below the base, empty or with a slash before it
   */
  static Need of(String method, String path) {
    List<String> parts = Stream.of(path.split("/", -1)).filter(part -> !part.isEmpty()).toList();
    if (parts.isEmpty()) {
      return method.equals("GET") ? Need.scoped(ALL, SEARCH) : EVERYTHING;
    }
    String first = parts.get(0);
    String last = parts.get(parts.size() - 1);
    if (method.equals("GET") && path.equals("/metadata")) {
      return new Need.Open();
    }
    if (last.equals("$validate") && parts.size() <= 2 && method.equals("POST")) {
      return new Need.Known();
    }
    if (first.equals("AuditEvent") && !method.equals("GET") && !last.equals("_search")) {
      return EVERYTHING;
    }
    if (first.startsWith("$") || first.equals("_search")) {
      return Need.scoped(ALL, READ, SEARCH);
    }
    if (!first.matches("[A-Z][A-Za-z]*")) {
      return method.equals("GET") ? Need.scoped(ALL, READ, SEARCH) : EVERYTHING;
    }
    return typed(method, first, parts.size(), last);
  }

  private static Need typed(String method, String type, int length, String last) {
    if (last.startsWith("$")) {
      // An operation answers with resources of more types than the one it is called on.
      return Need.scoped(ALL, READ, SEARCH);
    }
    return switch (method) {
      case "GET" ->
          Need.scoped(type, length == 1 || last.equals("_history") ? seeing(length) : READ);
      case "POST" -> Need.scoped(type, last.equals("_search") ? SEARCH : CREATE);
      case "PUT", "PATCH" -> Need.scoped(type, UPDATE);
      case "DELETE" -> Need.scoped(type, DELETE);
      default -> EVERYTHING;
    };
  }

  private static Interaction seeing(int length) {
    return length <= 2 ? SEARCH : READ;
  }
}
