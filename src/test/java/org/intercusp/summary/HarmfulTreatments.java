package org.intercusp.summary;

import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;

/** The base of the samples with signs of harm, answered or not, and with an end. */
final class HarmfulTreatments {

  /** Pain and locking of the joint, found at the last review. */
  static final String JOINT = "\"/reviews/3/jointSigns\": [\"pain\", \"locking\"]";

  private HarmfulTreatments() {}

  static Treatment of(String... changes) {
    return SampleTreatments.changed("{" + String.join(", ", changes) + "}");
  }

  /** The clinician's answer to joint signs found at a review. */
  static String answered(String review, String... signs) {
    return "\"/acceptances\": ["
        + Stream.of(signs).map(sign -> answer(review, sign)).collect(Collectors.joining(","))
        + "]";
  }

  private static String answer(String review, String sign) {
    return """
    {"finding": "review-joint", "subject": "%s", "values": {"%s": 1},
     "reason": "Examined: muscles only, settled within a week.", "on": "2026-07-14",
     "by": {"identifier": {"system": "https://clinic.example/staff", "value": "S-1"},
            "family": "Winterbourne"}}"""
        .formatted(review, sign);
  }

  static String ended(String status) {
    return "\"/completion\": {\"status\": \""
        + status
        + "\", \"decidedOn\": \"2026-07-14\", \"lastAttendedOn\": \"2026-07-13\"}";
  }
}
