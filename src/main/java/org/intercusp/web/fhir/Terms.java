package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import ca.uhn.fhir.rest.api.QualifiedParamList;
import ca.uhn.fhir.rest.param.DateParam;
import ca.uhn.fhir.rest.param.ParamPrefixEnum;
import ca.uhn.fhir.rest.param.TokenParam;
import ca.uhn.fhir.rest.server.exceptions.InvalidRequestException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import java.util.function.Function;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.InstantType;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.ResourceQuery.Around;
import org.intercusp.archive.ResourceQuery.Relation;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.fhir.search.Spans;
import org.jspecify.annotations.Nullable;

/** Reads the values of search parameters (FHIR R4, 3.1.1): alternatives are divided by commas. */
final class Terms {

  /** Values of one parameter; common practice, no source. */
  private static final int MOST = 200;

  private final FhirContext context;
  private final Clock clock;
  private final String base;

  Terms(FhirContext context, Clock clock, String base) {
    this.context = context;
    this.clock = clock;
    this.base = base;
  }

  List<String> ids(String name, String text) {
    return values(name, text);
  }

  List<Token> tokens(String name, String text) {
    List<Token> tokens = new ArrayList<>();
    for (String value : values(name, text)) {
      TokenParam token = new TokenParam();
      token.setValueAsQueryToken(context, name, null, value);
      boolean any = token.getValue() == null || token.getValue().isEmpty();
      if (any && (token.getSystem() == null || token.getSystem().isEmpty())) {
        throw Fault.of(Reason.PARAMETER, name + " is VALUE, SYSTEM|VALUE or SYSTEM|.");
      }
      tokens.add(new Token(token.getSystem(), any ? null : token.getValue()));
    }
    return tokens;
  }

  /** Logical ids of patients; a reference to anything else, or elsewhere, finds nothing. */
  List<String> patients(String name, String text) {
    List<String> ids = new ArrayList<>();
    for (String value : values(name, text)) {
      String own = value.startsWith(base + "/") ? value.substring(base.length() + 1) : value;
      String named = own.startsWith("Patient/") ? own.substring("Patient/".length()) : own;
      // Clients hand back the version they were given; a search is for the resource.
      String id = named.replaceFirst("/_history/[^/]*$", "");
      if (id.matches("[A-Za-z0-9\\-.]{1,64}")) {
        ids.add(id);
      }
    }
    return ids;
  }

  List<TimeSpan> spans(String name, String text) {
    return dates(name, text, this::span);
  }

  /** How the times that are wanted stand to those that are given. */
  List<Around> around(String name, String text) {
    return dates(name, text, this::around);
  }

  private <T> List<T> dates(String name, String text, Function<DateParam, T> meant) {
    List<T> dates = new ArrayList<>();
    for (String value : values(name, text)) {
      try {
        DateParam date = new DateParam();
        date.setValueAsQueryToken(context, name, null, value);
        dates.add(meant.apply(date));
      } catch (DataFormatException | InvalidRequestException | IllegalArgumentException e) {
        throw Fault.of(
            Reason.PARAMETER,
            name + " is a date or time of FHIR, such as ge2026-03-01 or lt2026-03-01T08:30:00Z.");
      }
    }
    return dates;
  }

  /** An instant of {@code _since}. */
  static Instant instant(String name, String text) {
    try {
      @Nullable Date value = new InstantType(text.replace(' ', '+')).getValue();
      if (value != null) {
        return value.toInstant();
      }
    } catch (DataFormatException | IllegalArgumentException e) {
      // Refused below, like an empty one.
    }
    throw Fault.of(Reason.PARAMETER, name + " is an instant, such as 2026-03-01T08:30:00Z.");
  }

  private Around around(DateParam date) {
    Spans.Span span = Spans.of(new DateTimeType(date.getValueAsString())).orElseThrow();
    Instant from = span.begins();
    Instant until = span.ends();
    ParamPrefixEnum prefix = date.getPrefix() == null ? ParamPrefixEnum.EQUAL : date.getPrefix();
    if (prefix == ParamPrefixEnum.APPROXIMATE) {
      Duration tenth = tenth(from);
      return new Around(Relation.OVERLAPPING, from.minus(tenth), until.plus(tenth));
    }
    Relation relation =
        switch (prefix) {
          case NOT_EQUAL -> Relation.NOT_WITHIN;
          case GREATERTHAN -> Relation.REACHING_BEYOND;
          case LESSTHAN -> Relation.REACHING_BEFORE;
          case GREATERTHAN_OR_EQUALS -> Relation.WITHIN_OR_BEYOND;
          case LESSTHAN_OR_EQUALS -> Relation.WITHIN_OR_BEFORE;
          case STARTS_AFTER -> Relation.AFTER;
          case ENDS_BEFORE -> Relation.BEFORE;
          default -> Relation.WITHIN;
        };
    return new Around(relation, from, until);
  }

  private TimeSpan span(DateParam date) {
    Instant from = date.getValue().toInstant();
    ZonedDateTime begin = from.atZone(clock.getZone());
    Instant until =
        switch (date.getPrecision()) {
          case YEAR -> begin.plusYears(1).toInstant();
          case MONTH -> begin.plusMonths(1).toInstant();
          case DAY -> begin.plusDays(1).toInstant();
          case MINUTE -> from.plus(Duration.ofMinutes(1));
          case SECOND -> from.plusSeconds(1);
          case MILLI -> from.plusMillis(1);
        };
    ParamPrefixEnum prefix = date.getPrefix() == null ? ParamPrefixEnum.EQUAL : date.getPrefix();
    return switch (prefix) {
      case EQUAL -> new TimeSpan(from, until, true);
      case NOT_EQUAL -> new TimeSpan(from, until, false);
      case GREATERTHAN, STARTS_AFTER -> new TimeSpan(until, null, true);
      case LESSTHAN, ENDS_BEFORE -> new TimeSpan(null, from, true);
      case GREATERTHAN_OR_EQUALS -> new TimeSpan(from, null, true);
      case LESSTHAN_OR_EQUALS -> new TimeSpan(null, until, true);
      case APPROXIMATE -> approximately(from, until);
    };
  }

  private TimeSpan approximately(Instant from, Instant until) {
    Duration tenth = tenth(from);
    return new TimeSpan(from.minus(tenth), until.plus(tenth), true);
  }

  // FHIR R4, 3.1.1.4.5, recommends a tenth of the distance from now.
  private Duration tenth(Instant from) {
    return Duration.between(from, clock.instant()).abs().dividedBy(10);
  }

  private static List<String> values(String name, String text) {
    List<String> values =
        QualifiedParamList.splitQueryStringByCommasIgnoreEscape(null, text).stream()
            .filter(value -> !value.isBlank())
            .toList();
    if (values.isEmpty() || values.size() > MOST) {
      throw Fault.of(Reason.PARAMETER, name + " has 1 to " + MOST + " values.");
    }
    return values;
  }
}
