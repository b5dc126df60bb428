package org.intercusp.audit;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import org.intercusp.access.Condition;
import org.intercusp.access.TimeSpan;
import org.intercusp.audit.AuditQuery.Place;
import org.jspecify.annotations.Nullable;

/** Conditions on records {@code a} within a reach, and what stands in them. */
final class AuditConditions {

  private final StringJoiner text = new StringJoiner(" and ");
  private final Map<String, Object> params = new LinkedHashMap<>();
  private int drawn;

  AuditConditions(Condition reach) {
    text.add(reach.sql());
    params.putAll(reach.params());
  }

  AuditConditions of(AuditQuery query) {
    text.add("a.recorded_at <= " + drawn(time(query.moment())));
    query.ids().forEach(any -> text.add("a.id in (" + drawn(any) + ")"));
    query.times().forEach(this::anyOf);
    return this;
  }

  AuditConditions after(@Nullable Place place) {
    if (place != null) {
      text.add(
          "(a.recorded_at, a.id) < (%s, %s)"
              .formatted(drawn(time(place.recordedAt())), drawn(place.id())));
    }
    return this;
  }

  AuditConditions with(String name, Object value) {
    params.put(name, value);
    return this;
  }

  String text() {
    return text.toString();
  }

  Map<String, Object> params() {
    return params;
  }

  private void anyOf(List<TimeSpan> alternatives) {
    StringJoiner any = new StringJoiner(" or ", "(", ")").setEmptyValue("1 = 0");
    alternatives.forEach(one -> any.add(span(one)));
    text.add(any.toString());
  }

  private String span(TimeSpan span) {
    Condition condition = span.of("a.recorded_at", "p" + drawn++);
    params.putAll(condition.params());
    return condition.sql();
  }

  private static Object time(Instant instant) {
    return instant.atOffset(ZoneOffset.UTC);
  }

  private String drawn(Object value) {
    String name = "p" + drawn++;
    params.put(name, value);
    return ":" + name;
  }
}
