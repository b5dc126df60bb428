package org.intercusp.fhir;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * What was read out of a Bundle.
 *
 * @param treatment absent when there are faults
 * @param faults what kept it from being read, all at once, with the FHIRPath in the message
 * @param unplaced what the Bundle says beyond the treatment file
 * @param origins FHIRPath of each member read, by JSON pointer into the treatment file
 */
public record ReadBack(
    @Nullable Treatment treatment,
    List<Finding> faults,
    List<Unplaced> unplaced,
    Map<String, String> origins) {

  public ReadBack {
    faults = List.copyOf(faults);
    unplaced = List.copyOf(unplaced);
    origins = Map.copyOf(origins);
  }

  /**
   * Where in the Bundle a place of the treatment file came from, or the nearest place around it.
   */
  public Optional<String> expression(Pointer pointer) {
    String at = pointer.text();
    while (true) {
      String found = origins.get(at);
      if (found != null || at.isEmpty()) {
        return Optional.ofNullable(found);
      }
      at = at.substring(0, at.lastIndexOf('/'));
    }
  }
}
