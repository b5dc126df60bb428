package org.intercusp.web.pages;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.exchange.records.Beyond;

/** What a recipient's people deleted, as people at the clinic say it. */
final class Named {

  private static final Map<String, String> TYPES =
      Map.ofEntries(
          Map.entry("AdverseEvent", "Harm"),
          Map.entry("AllergyIntolerance", "Allergy"),
          Map.entry("CarePlan", "Treatment plan"),
          Map.entry("CareTeam", "Care team"),
          Map.entry("Condition", "Diagnosis"),
          Map.entry("DetectedIssue", "Finding"),
          Map.entry("Device", "Appliance"),
          Map.entry("DeviceRequest", "Order of an appliance"),
          Map.entry("DeviceUseStatement", "Wear"),
          Map.entry("DocumentReference", "Document"),
          Map.entry("Encounter", "Visit"),
          Map.entry("ImagingStudy", "Film"),
          Map.entry("Observation", "Measurement"),
          Map.entry("Provenance", "Note of the delivery"),
          Map.entry("ServiceRequest", "Request"));

  private Named() {}

  /**
   * Its kind, what it is of, and its address there.
   *
   * @param deleted with the identifier it was delivered under, which begins with that of the
   *     treatment
   */
  static String of(Beyond deleted, String treatment) {
    String type = deleted.path().split("/", -1)[0];
    String own = deleted.value();
    if (!own.startsWith(treatment + "/")) {
      return said(type, own, deleted.path());
    }
    List<String> steps = List.of(own.substring(treatment.length() + 1).split("/", -1));
    // The first says what it is; ids of the file follow as they stand there.
    String of =
        Stream.concat(Stream.of(Trade.words(steps.get(0))), steps.stream().skip(1))
            .collect(Collectors.joining(" "));
    return said(type, of, deleted.path());
  }

  private static String said(String type, String of, String address) {
    return TYPES.getOrDefault(type, type) + ": " + of + " (" + address + ")";
  }
}
