package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.hl7.fhir.r4.model.Meta;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;

/**
 * Which version a caller says they have.
 *
 * @param tags entity tags as written, without the sign of weakness; empty where none is sent
 * @param since the time of the version they have; absent where none that can be read is sent
 */
record Known(List<String> tags, @Nullable Instant since) {

  static Known of(HttpServletRequest request) {
    List<String> tags =
        Collections.list(request.getHeaders(HttpHeaders.IF_NONE_MATCH)).stream()
            .flatMap(header -> Arrays.stream(header.split(",")))
            .map(tag -> tag.strip().replaceFirst("^W/", ""))
            .toList();
    return new Known(tags, time(request.getHeader(HttpHeaders.IF_MODIFIED_SINCE)));
  }

  private static @Nullable Instant time(@Nullable String since) {
    try {
      return since == null
          ? null
          : ZonedDateTime.parse(since, DateTimeFormatter.RFC_1123_DATE_TIME).toInstant();
    } catch (DateTimeParseException e) {
      return null;
    }
  }

  /** RFC 9110, 13.2.2: tags go before times. */
  boolean has(Meta version) {
    if (!tags.isEmpty()) {
      String own = "\"" + version.getVersionId() + "\"";
      return tags.stream().anyMatch(tag -> tag.equals("*") || tag.equals(own));
    }
    Instant changed = version.getLastUpdated().toInstant().truncatedTo(ChronoUnit.SECONDS);
    return since != null && !changed.isAfter(since);
  }
}
