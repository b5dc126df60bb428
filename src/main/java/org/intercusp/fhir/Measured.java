package org.intercusp.fhir;

import java.util.Map;

/** The figures of films and models that go out beside their readings, by name. */
final class Measured {

  static final Map<String, Concept> ON_FILMS =
      Map.ofEntries(
          film("sna", "SNA"),
          film("snb", "SNB"),
          film("anb", "ANB"),
          film("anb-corrected", "ANB corrected"),
          film("sn-mx", "SN to maxillary plane"),
          film("sn-mp", "SN to mandibular plane"),
          film("mmpa", "Maxillary to mandibular plane"),
          film("u1-mx", "Upper incisor to maxillary plane"),
          film("l1-md", "Lower incisor to mandibular plane"),
          film("interincisal", "Interincisal angle"),
          film("wits", "Wits"),
          film("upper-anterior-face-height", "Upper anterior face height"),
          film("lower-anterior-face-height", "Lower anterior face height"),
          film("lafh-percent", "Lower anterior face height, share of both"),
          film("jarabak-ratio", "Posterior to anterior face height"),
          film("co-gn", "Co to Gn"),
          film("co-a", "Co to A"));

  static final Map<String, Concept> ON_MODELS =
      Map.ofEntries(
          model("tooth-size-overall", "Tooth size ratio, overall"),
          model("tooth-size-anterior", "Tooth size ratio, anterior"),
          model("space-upper", "Space in the upper arch"),
          model("space-lower", "Space in the lower arch"),
          model("irregularity-upper", "Irregularity of the upper arch"),
          model("irregularity-lower", "Irregularity of the lower arch"));

  private Measured() {}

  private static Map.Entry<String, Concept> film(String name, String display) {
    return Map.entry(name, Codes.measurement("film-" + name, display));
  }

  private static Map.Entry<String, Concept> model(String name, String display) {
    return Map.entry(name, Codes.measurement("model-" + name, display));
  }
}
