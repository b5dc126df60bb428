package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/**
 * A review visit: what was measured, seen and done.
 *
 * @param overjetRetruded overjet with the jaw held back
 * @param maximumOpening distance between the incisor edges plus the overbite
 * @param note free text that never goes to a registry
 * @param jointSigns an empty list says that none was found, absence that nobody looked
 */
public record Review(
    String id,
    LocalDate date,
    String stageId,
    String seenBy,
    ReviewKind kind,
    Length overjet,
    @Nullable Length overjetRetruded,
    Length overbite,
    BothSides molarRelation,
    @Nullable BothSides posteriorOpenBite,
    @Nullable HoursPerDay wearReported,
    @Nullable WearMeasured wearMeasured,
    @Nullable Tenderness retractionTenderness,
    @Nullable List<JointSign> jointSigns,
    @Nullable Length maximumOpening,
    List<Breakage> breakages,
    List<Trim> trimmed,
    @Nullable Reactivation reactivation,
    @Nullable Integer screwTurns,
    @Nullable Hygiene hygiene,
    List<HarmEvent> adverseEvents,
    @Nullable LocalDate nextReviewOn,
    @Nullable String note) {

  public Review {
    jointSigns = jointSigns == null ? null : List.copyOf(jointSigns);
    breakages = List.copyOf(breakages);
    trimmed = List.copyOf(trimmed);
    adverseEvents = List.copyOf(adverseEvents);
  }

  /** Wear measured by a sensor over a span of days. */
  public record WearMeasured(HoursPerDay hoursPerDay, LocalDate from, LocalDate to) {}

  /**
   * A re-activation: how far the bite was taken forward, and the new bite if one was registered.
   */
  public record Reactivation(Length amount, @Nullable String biteId) {}
}
