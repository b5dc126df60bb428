package org.intercusp.access;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.StringJoiner;
import org.jspecify.annotations.Nullable;

/**
 * A span of time that rows are searched by.
 *
 * @param from the first instant in it; absent: since ever
 * @param until the first instant after it; absent: for ever
 * @param inside whether the time is in it, or else out of it
 */
public record TimeSpan(@Nullable Instant from, @Nullable Instant until, boolean inside) {

  /**
   * Rows whose time is as this span says.
   *
   * @param column the time; never null in a row
   * @param prefix of the parameters' names, which no other in the statement has
   */
  public Condition of(String column, String prefix) {
    StringJoiner both = new StringJoiner(" and ", "(", ")").setEmptyValue("1 = 1");
    Map<String, Object> params = new LinkedHashMap<>();
    if (from != null) {
      both.add(column + " >= :" + prefix + "from");
      params.put(prefix + "from", from.atOffset(ZoneOffset.UTC));
    }
    if (until != null) {
      both.add(column + " < :" + prefix + "until");
      params.put(prefix + "until", until.atOffset(ZoneOffset.UTC));
    }
    return new Condition(inside ? both.toString() : "not " + both, params);
  }
}
