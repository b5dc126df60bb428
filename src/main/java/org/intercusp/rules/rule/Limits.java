package org.intercusp.rules.rule;

import java.math.BigDecimal;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import org.intercusp.measure.Angle;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/**
 * The limits of a clinic: those of common practice it has set for itself, the usual ones for the
 * rest. A value outside the safe bounds of its limit, or a lower limit above its upper one, is
 * refused with IllegalArgumentException that names the limit.
 *
 * @param changed what the clinic has set
 */
public record Limits(Map<Limit, BigDecimal> changed) {

  /** The usual limits throughout. */
  public static final Limits USUAL = new Limits(Map.of());

  public Limits {
    Map<Limit, BigDecimal> ordered = new EnumMap<>(Limit.class);
    ordered.putAll(changed);
    changed = Collections.unmodifiableMap(ordered);
    changed.forEach(Limits::withinBounds);
    ordered(changed, Limit.PATH_SHORTEST, Limit.PATH_LONGEST);
    ordered(changed, Limit.PREMOLAR_CLEARANCE_LEAST, Limit.PREMOLAR_CLEARANCE_MOST);
    ordered(changed, Limit.HEIGHT_ADULT_LOW, Limit.HEIGHT_ADULT_HIGH);
    ordered(changed, Limit.HEIGHT_CHILD_LOW, Limit.HEIGHT_CHILD_HIGH);
    ordered(changed, Limit.INCLINE_USUAL_LOW, Limit.INCLINE_USUAL_HIGH);
    ordered(changed, Limit.CLASP_WIRE_LEAST, Limit.CLASP_WIRE_MOST);
    ordered(changed, Limit.BOW_WIRE_LEAST, Limit.BOW_WIRE_MOST);
    ordered(changed, Limit.ACTIVE_SHORTEST, Limit.ACTIVE_LONGEST);
    ordered(changed, Limit.SUPPORT_SHORTEST, Limit.SUPPORT_LONGEST);
    ordered(changed, Limit.WEAR_LEAST, Limit.WEAR_FULL_TIME);
  }

  /** From the names settings use; a name that is no limit is refused. */
  public static Limits named(Map<String, BigDecimal> byName) {
    Map<Limit, BigDecimal> found = new EnumMap<>(Limit.class);
    byName.forEach((name, value) -> found.put(named(name), value));
    return new Limits(found);
  }

  private static Limit named(String name) {
    for (Limit limit : Limit.values()) {
      if (limit.code().equals(name)) {
        return limit;
      }
    }
    throw new IllegalArgumentException("there is no limit named " + name);
  }

  private static void withinBounds(Limit limit, BigDecimal value) {
    boolean counted =
        limit == Limit.ADULT_FROM || limit.unit() == Unit.DAY || limit.unit() == Unit.COUNT;
    if (counted && value.stripTrailingZeros().scale() > 0) {
      throw new IllegalArgumentException(limit.code() + " is a whole number");
    }
    if (value.compareTo(limit.lowest()) < 0 || value.compareTo(limit.highest()) > 0) {
      throw new IllegalArgumentException(
          "%s is %s: it may be set from %s to %s"
              .formatted(
                  limit.code(),
                  value.toPlainString(),
                  limit.lowest().toPlainString(),
                  limit.unit().behind(limit.highest().toPlainString())));
    }
  }

  private static void ordered(Map<Limit, BigDecimal> changed, Limit low, Limit high) {
    BigDecimal least = changed.getOrDefault(low, low.usual());
    BigDecimal most = changed.getOrDefault(high, high.usual());
    if (least.compareTo(most) > 0) {
      throw new IllegalArgumentException(low.code() + " lies above " + high.code());
    }
  }

  public BigDecimal of(Limit limit) {
    return changed.getOrDefault(limit, limit.usual());
  }

  public Length length(Limit limit) {
    return new Length(of(limit));
  }

  public Angle angle(Limit limit) {
    return new Angle(of(limit));
  }

  public Share share(Limit limit) {
    return new Share(of(limit));
  }

  public HoursPerDay hours(Limit limit) {
    return new HoursPerDay(of(limit));
  }

  /** Whether the clinic has set a limit to something else than the usual. */
  public boolean isChanged(Limit limit) {
    @Nullable BigDecimal set = changed.get(limit);
    return set != null && set.compareTo(limit.usual()) != 0;
  }
}
