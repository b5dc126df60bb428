package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.intercusp.conformance.Format;
import org.jspecify.annotations.Nullable;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.util.InvalidMimeTypeException;
import org.springframework.util.MimeTypeUtils;

/**
 * How an answer is wanted, as every request may say it.
 *
 * @param base of this door, as the caller wrote it, without a slash at its end
 * @param format of the answer
 * @param formatSaid whether the query says the format, which no header then changes
 * @param pretty whether it is set out in lines
 * @param summary which part of resources is wanted
 * @param elements of resources that are wanted; empty for all
 * @param strict whether a parameter that is not known is a fault
 * @param returned what a write answers
 * @param params every parameter but those read here
 */
record Asked(
    String base,
    Format format,
    boolean formatSaid,
    boolean pretty,
    Part summary,
    List<String> elements,
    boolean strict,
    Returned returned,
    Map<String, List<String>> params) {

  /** Values of {@code _summary}. */
  enum Part {
    FALSE,
    TRUE,
    TEXT,
    DATA,
    COUNT
  }

  /** Values of {@code Prefer: return}. */
  enum Returned {
    MINIMAL,
    REPRESENTATION,
    OPERATIONOUTCOME
  }

  private static final String FHIR_JSON = "application/fhir+json";
  private static final Set<String> JSON =
      Set.of("json", "application/json", FHIR_JSON, "text/json");
  private static final Set<String> XML =
      Set.of("xml", "application/xml", "application/fhir+xml", "text/xml");
  private static final Set<String> READ_HERE =
      Set.of("_format", "_pretty", "_summary", "_elements");

  /** How a fault is told whose request could not even be read. */
  static Asked plainly(String base) {
    return new Asked(
        base, Format.JSON, false, false, Part.FALSE, List.of(), false, Returned.MINIMAL, Map.of());
  }

  /** The format alone, which the answer to any other fault has. */
  Asked forFault() {
    return new Asked(
        base, format, formatSaid, pretty, Part.FALSE, List.of(), strict, returned, Map.of());
  }

  static Asked of(HttpServletRequest request, String base) {
    Map<String, List<String>> all = params(request);
    Format format = format(request, one(all, "_format"));
    List<String> prefer = Collections.list(request.getHeaders("Prefer"));
    return new Asked(
        base,
        format,
        all.containsKey("_format"),
        "true".equals(one(all, "_pretty")),
        part(one(all, "_summary")),
        elements(one(all, "_elements")),
        "strict".equals(preference(prefer, "handling").orElse("lenient")),
        returned(preference(prefer, "return").orElse("minimal")),
        all.entrySet().stream()
            .filter(entry -> !READ_HERE.contains(entry.getKey()))
            .collect(
                Collectors.toMap(
                    Map.Entry::getKey, Map.Entry::getValue, (a, b) -> a, LinkedHashMap::new)));
  }

  private static Map<String, List<String>> params(HttpServletRequest request) {
    try {
      Map<String, List<String>> all = new LinkedHashMap<>();
      request.getParameterMap().forEach((name, values) -> all.put(name, List.of(values)));
      return all;
    } catch (IllegalStateException | RequestRejectedException e) {
      throw Fault.of(Reason.PARAMETER, "The parameters are not written as a URL writes them.");
    }
  }

  private static @Nullable String one(Map<String, List<String>> all, String name) {
    List<String> values = all.getOrDefault(name, List.of());
    if (values.size() > 1) {
      throw Fault.of(Reason.PARAMETER, name + " is said once.");
    }
    return values.isEmpty() ? null : values.get(0);
  }

  private static Format format(HttpServletRequest request, @Nullable String wanted) {
    if (wanted != null) {
      // A plus sign in a query is a blank to those who forgot to escape it.
      String type = wanted.toLowerCase(Locale.ROOT).replace(' ', '+').split(";", 2)[0].strip();
      if (JSON.contains(type)) {
        return Format.JSON;
      }
      if (XML.contains(type)) {
        return Format.XML;
      }
      throw notAcceptable();
    }
    String accept = String.join(",", Collections.list(request.getHeaders("Accept")));
    if (accept.isBlank()) {
      return Format.JSON;
    }
    return accepted(accept)
        .or(() -> ofExport(request) ? Optional.of(Format.JSON) : Optional.empty())
        .orElseThrow(Asked::notAcceptable);
  }

  /** Who wants lines asks for them from the first request on; an export itself is told in JSON. */
  private static boolean ofExport(HttpServletRequest request) {
    return request.getRequestURI().contains("/" + ExportOperation.PATH);
  }

  private static Optional<Format> accepted(String accept) {
    try {
      List<MediaType> types = MediaType.parseMediaTypes(accept);
      MimeTypeUtils.sortBySpecificity(types);
      return types.stream()
          .filter(type -> type.getQualityValue() > 0)
          .sorted((a, b) -> Double.compare(b.getQualityValue(), a.getQualityValue()))
          .flatMap(type -> ours(type).stream())
          .findFirst();
    } catch (InvalidMediaTypeException | InvalidMimeTypeException e) {
      return Optional.empty();
    }
  }

  private static Optional<Format> ours(MediaType type) {
    if (!Incoming.isRelease4(type)) {
      return Optional.empty();
    }
    String bare = type.getType() + "/" + type.getSubtype();
    if (XML.contains(bare)) {
      return Optional.of(Format.XML);
    }
    return JSON.contains(bare) || type.includes(MediaType.valueOf(FHIR_JSON))
        ? Optional.of(Format.JSON)
        : Optional.empty();
  }

  private static Fault notAcceptable() {
    return Fault.of(
        Reason.NOT_ACCEPTABLE,
        "Answers are FHIR 4.0 as application/fhir+json or application/fhir+xml.");
  }

  private static Part part(@Nullable String text) {
    return Arrays.stream(Part.values())
        .filter(one -> text == null || one.name().equals(text.toUpperCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () -> Fault.of(Reason.PARAMETER, "_summary is true, text, data, count or false."));
  }

  private static List<String> elements(@Nullable String text) {
    if (text == null) {
      return List.of();
    }
    List<String> names = Arrays.stream(text.split(",")).map(String::strip).toList();
    if (!names.stream().allMatch(name -> name.matches("([A-Z]\\w*\\.)?[a-z]\\w*"))) {
      throw Fault.of(Reason.PARAMETER, "_elements lists names of elements.");
    }
    return names;
  }

  private static Optional<String> preference(List<String> headers, String name) {
    return headers.stream()
        .flatMap(header -> Arrays.stream(header.split("[,;]")))
        .map(String::strip)
        .filter(part -> part.regionMatches(true, 0, name + "=", 0, name.length() + 1))
        .map(part -> part.substring(name.length() + 1).replace("\"", ""))
        .findFirst();
  }

  /** A preference that is not understood is not followed (RFC 7240, 2). */
  private static Returned returned(String text) {
    return Arrays.stream(Returned.values())
        .filter(one -> one.name().equals(text.toUpperCase(Locale.ROOT)))
        .findFirst()
        .orElse(Returned.MINIMAL);
  }
}
