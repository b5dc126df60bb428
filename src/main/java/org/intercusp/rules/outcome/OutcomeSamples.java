package org.intercusp.rules.outcome;

/** Outcomes that the samples of this room share. */
final class OutcomeSamples {

  /** Overjet 8 mm makes the dental health component 4a. */
  static final String START = outcome("O1", "2026-01-12", "start", "8");

  private OutcomeSamples() {}

  static String outcome(String id, String date, String phase, String overjet) {
    return """
        {"id": "%s", "date": "%s", "phase": "%s", "source": "mouth",
         "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
         "findings": {"overjet": %s, "teethEdgeToEdge": 0, "teethInAnteriorCrossbite": 0,
          "overbite": 3, "overbiteCover": 0.3, "overbiteContact": "none", "lateralOpenBite": 0,
          "centreline": 0, "contacts": {"upper": [0, 0, 0, 0, 0], "lower": [0, 0, 0, 0, 0]},
          "worstDisplacement": 0,
          "buccal": {"right": {"anteroposterior": "full", "open": false, "transverse": "none"},
                     "left": {"anteroposterior": "full", "open": false, "transverse": "none"}},
          "crossbite": false, "crossbiteShift": 0, "lingualCrossbiteNoContact": false,
          "lips": "incompetent", "masticatoryDifficulty": false, "speechDifficulty": false,
          "missingTeeth": [], "impededTeeth": [], "tippedTeeth": [], "submergedTeeth": [],
          "supernumerary": false, "cleft": false, "aestheticComponent": 5,
          "upperCrowding": 0, "upperSpacing": 0}}"""
        .formatted(id, date, phase, overjet);
  }
}
