package org.intercusp.archive;

import java.time.ZoneOffset;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import java.util.function.Function;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.access.Condition;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.ResourceQuery.Around;
import org.intercusp.archive.ResourceQuery.Coded;
import org.intercusp.archive.ResourceQuery.Token;
import org.jspecify.annotations.Nullable;

/** Conditions on resources {@code r} and their versions {@code v}, and what stands in them. */
final class Conditions {

  private final StringJoiner text = new StringJoiner(" and ").setEmptyValue("1 = 1");
  private final Map<String, @Nullable Object> params = new LinkedHashMap<>();
  private int drawn;

  static Conditions of(ResourceQuery query, long moment) {
    Conditions where =
        new Conditions()
            .and("v.resource_type = :type", "type", query.type())
            .and("v.sequence <= :moment", "moment", moment)
            .and("v.superseded > :moment");
    query.ids().forEach(any -> where.in("v.logical_id", any));
    query.patients().forEach(any -> where.in("v.patient", any));
    query.identifiers().forEach(any -> where.anyOf(any, where::token));
    query.updated().forEach(any -> where.anyOf(any, where::span));
    query.coded().forEach(where::coded);
    query.timed().forEach(where::timed);
    return where;
  }

  Conditions and(String condition) {
    text.add(condition);
    return this;
  }

  Conditions and(String condition, String name, Object value) {
    return and(condition).with(name, value);
  }

  Conditions with(String name, Object value) {
    params.put(name, value);
    return this;
  }

  Conditions in(String column, Collection<String> values) {
    return values.isEmpty() ? and("1 = 0") : and(column + " in (" + drawn(values) + ")");
  }

  String text() {
    return text.toString();
  }

  Map<String, @Nullable Object> params() {
    return params;
  }

  private <T> void anyOf(List<T> alternatives, Function<T, String> condition) {
    and(any(alternatives, condition));
  }

  private static <T> String any(List<T> alternatives, Function<T, String> condition) {
    StringJoiner any = new StringJoiner(" or ", "(", ")").setEmptyValue("1 = 0");
    alternatives.forEach(one -> any.add(condition.apply(one)));
    return any.toString();
  }

  /** Codes of versions that were superseded before there were any are not there. */
  private void coded(Coded coded) {
    and((coded.none() ? "not " : "") + any(coded.any(), token -> code(coded.name(), token)));
  }

  private String code(String name, Token token) {
    return "position(" + drawn(CodeLines.wanted(name, token)) + " in coalesce(v.codes, '')) > 0";
  }

  private void timed(List<Around> any) {
    and("(v.begins is not null or v.ends is not null)");
    anyOf(any, this::around);
  }

  /** What has no begin or no end known has it before or after every other time. */
  private String around(Around around) {
    String from = drawn(around.from().atOffset(ZoneOffset.UTC));
    String until = drawn(around.until().atOffset(ZoneOffset.UTC));
    String within = "(v.begins >= " + from + " and v.ends <= " + until + ")";
    String beyond = "(v.ends is null or v.ends > " + until + ")";
    String before = "(v.begins is null or v.begins < " + from + ")";
    return switch (around.relation()) {
      case WITHIN -> within;
      case NOT_WITHIN -> "(" + beyond + " or " + before + ")";
      case REACHING_BEYOND -> beyond;
      case REACHING_BEFORE -> before;
      case WITHIN_OR_BEYOND -> "(" + within + " or " + beyond + ")";
      case WITHIN_OR_BEFORE -> "(" + within + " or " + before + ")";
      case AFTER -> "v.begins >= " + until;
      case BEFORE -> "v.ends <= " + from;
      case OVERLAPPING ->
          "((v.begins is null or v.begins < "
              + until
              + ") and (v.ends is null or v.ends > "
              + from
              + "))";
    };
  }

  private String token(Token token) {
    StringJoiner both = new StringJoiner(" and ", "(", ")").setEmptyValue("1 = 1");
    if (token.value() != null) {
      both.add("r.identifier_key = " + drawn(DigestUtils.sha256Hex(token.value())));
    }
    if (token.system() != null) {
      both.add("r.identifier_system = " + drawn(token.system()));
    }
    return both.toString();
  }

  private String span(TimeSpan span) {
    Condition condition = span.of("v.updated_at", "p" + drawn++);
    params.putAll(condition.params());
    return condition.sql();
  }

  private String drawn(Object value) {
    String name = "p" + drawn++;
    params.put(name, value);
    return ":" + name;
  }
}
