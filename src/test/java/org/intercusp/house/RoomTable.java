package org.intercusp.house;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The rooms of the house and what each may use, as DEVELOPERS.md draws them: move a wall there and
 * here in one commit. A room is a package below the root with all its own subpackages.
 */
final class RoomTable {

  /** What a treatment is made of: whoever may use {@code treatment} may hold its parts. */
  private static final Set<String> PARTS_OF_A_TREATMENT = Set.of("measure", "dentition", "finding");

  static final Set<String> WITHOUT_SPRING =
      Set.of("measure", "dentition", "finding", "treatment", "analysis", "rules", "scenario");

  static final Set<String> WITH_HAPI =
      Set.of("fhir", "conformance", "exchange", "summary", "registry", "web.fhir", "app");

  static final Set<String> FORBIDDEN_NAMES =
      Set.of("util", "utils", "common", "model", "service", "dto", "impl", "exceptions");

  /** The one package that has such a name for a reason: models here are dental casts. */
  static final String DENTAL_MODELS = "analysis.model";

  private final Map<String, Set<String>> allowed = new LinkedHashMap<>();

  RoomTable() {
    room("measure");
    room("dentition", "measure");
    room("finding", "measure");
    room("treatment", "measure", "dentition", "finding");
    room("analysis", "treatment");
    room("rules", "analysis", "treatment");
    room("access", "finding");
    room("audit", "access", "finding");
    room("fhir", "treatment", "analysis", "finding", "audit", "access");
    room("conformance", "fhir", "rules", "treatment");
    room("archive", "treatment", "finding", "access", "audit");
    room("bulk", "archive", "access", "audit", "treatment");
    room("exchange", "archive", "access", "audit", "fhir", "conformance", "treatment");
    room("summary", "analysis", "rules", "fhir", "treatment");
    room("registry", "analysis", "fhir", "conformance", "treatment");
    room("worklist", "archive", "rules", "analysis", "treatment", "access", "audit");
    room("scenario", "treatment");
    Set<String> below = new TreeSet<>(allowed.keySet());
    Set<String> doors = Set.of("web.api", "web.fhir", "web.pages", "cli");
    Set<String> belowApp = new TreeSet<>(below);
    belowApp.addAll(doors);
    for (String door : new TreeSet<>(doors)) {
      room(door, belowApp.toArray(String[]::new));
    }
    room("app", belowApp.toArray(String[]::new));
  }

  private void room(String name, String... uses) {
    Set<String> all = new LinkedHashSet<>(Set.of(uses));
    if (all.contains("treatment")) {
      all.addAll(PARTS_OF_A_TREATMENT);
    }
    allowed.put(name, Set.copyOf(all));
  }

  Set<String> rooms() {
    return allowed.keySet();
  }

  /** The room a package below the root belongs to; empty when the table knows none. */
  Optional<String> roomOf(String packageBelowRoot) {
    return allowed.keySet().stream()
        .filter(room -> (packageBelowRoot + ".").startsWith(room + "."))
        .findFirst();
  }

  boolean mayUse(String room, String other) {
    return room.equals(other) || allowed.getOrDefault(room, Set.of()).contains(other);
  }
}
