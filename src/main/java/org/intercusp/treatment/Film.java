package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.intercusp.measure.Decimal;
import org.jspecify.annotations.Nullable;

/**
 * A lateral cephalometric film.
 *
 * @param magnification per cent, 8 means lengths are drawn 1.08 times; where absent lengths are
 *     withheld and angles given
 * @param landmarks traced points, in the order given
 * @param repeatOf id of the film of which this is a second tracing
 */
public record Film(
    String id,
    LocalDate takenOn,
    JawPosition jaw,
    @Nullable Decimal magnification,
    Map<Landmark, Point> landmarks,
    @Nullable Gonion gonion,
    @Nullable String tracer,
    @Nullable String repeatOf,
    @Nullable Vertebrae vertebrae) {

  public Film {
    landmarks = ordered(landmarks);
  }

  private static Map<Landmark, Point> ordered(Map<Landmark, Point> landmarks) {
    Map<Landmark, Point> ordered = new EnumMap<>(Landmark.class);
    ordered.putAll(landmarks);
    return Collections.unmodifiableMap(ordered);
  }
}
