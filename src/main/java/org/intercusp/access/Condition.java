package org.intercusp.access;

import java.util.Map;

/**
 * A condition of an SQL statement, complete in itself: {@code where} or {@code and} goes before it.
 *
 * @param sql with named parameters, which begin with {@code reach} where it is a reach's
 * @param params what they stand for
 */
public record Condition(String sql, Map<String, Object> params) {

  public Condition {
    params = Map.copyOf(params);
  }
}
