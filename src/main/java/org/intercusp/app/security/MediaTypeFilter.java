package org.intercusp.app.security;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.List;
import java.util.stream.Collectors;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Takes only JSON and FHIR content types where JSON and FHIR are expected (CSV too where sheets are
 * taken); a form of another site can send neither without asking the browser first.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE + 5)
class MediaTypeFilter extends OncePerRequestFilter {

  private static final List<MediaType> JSON = List.of(MediaType.APPLICATION_JSON);
  private static final List<MediaType> JSON_OR_SHEET =
      List.of(MediaType.APPLICATION_JSON, MediaType.valueOf("text/csv"));
  private static final List<MediaType> FHIR =
      List.of(
          MediaType.APPLICATION_JSON,
          MediaType.APPLICATION_XML,
          MediaType.valueOf("application/fhir+json"),
          MediaType.valueOf("application/fhir+xml"));
  private static final List<MediaType> SEARCH = List.of(MediaType.APPLICATION_FORM_URLENCODED);

  private static final List<MediaType> ZIP = List.of(MediaType.valueOf("application/zip"));

  private static final List<MediaType> LINES =
      List.of(
          MediaType.APPLICATION_JSON,
          MediaType.valueOf("application/x-ndjson"),
          MediaType.valueOf("application/ndjson"));

  private final Refusals refusals;

  MediaTypeFilter(Refusals refusals) {
    this.refusals = refusals;
  }

  @Override
  protected void doFilterInternal(
      HttpServletRequest request, HttpServletResponse response, FilterChain chain)
      throws ServletException, IOException {
    if (mayCarryBody(request)
        && !isForm(request)
        && !isBareOperation(request)
        && !isExpected(request)) {
      refusals.write(Refusal.MEDIA_TYPE, taken(request.getRequestURI()), request, response);
      return;
    }
    if (isFolded(request)) {
      refusals.write(
          Refusal.MEDIA_TYPE,
          "This path takes bodies as they are, without a Content-Encoding.",
          request,
          response);
      return;
    }
    chain.doFilter(request, response);
  }

  private static String taken(String path) {
    return expected(path).stream()
        .map(MediaType::toString)
        .collect(Collectors.joining(" or ", "This path takes ", "."));
  }

  /** Only the FHIR door unfolds what comes compressed; elsewhere it would be read as it is. */
  private static boolean isFolded(HttpServletRequest request) {
    String encoding = request.getHeader(HttpHeaders.CONTENT_ENCODING);
    return mayCarryBody(request)
        && !Refusals.isFhir(request)
        && encoding != null
        && !encoding.strip().equalsIgnoreCase("identity");
  }

  private static boolean mayCarryBody(HttpServletRequest request) {
    return request.getMethod().equals("POST")
        || request.getMethod().equals("PUT")
        || request.getMethod().equals("PATCH");
  }

  /**
   * FHIR operations take their parameters from the query too, and what has no body has no type.
   * Elsewhere a type is asked for all the same: another site cannot send one of these unasked.
   */
  private static boolean isBareOperation(HttpServletRequest request) {
    return request.getRequestURI().startsWith("/fhir/")
        && request.getContentType() == null
        && request.getContentLengthLong() <= 0
        && request.getHeader("Transfer-Encoding") == null;
  }

  /** Forms have paths of their own, which a token guards. */
  private static boolean isForm(HttpServletRequest request) {
    return request.getRequestURI().startsWith("/pages/");
  }

  /** A page of another site cannot send CSV unasked either: it is no simple content type. */
  private static List<MediaType> expected(String path) {
    if (path.startsWith("/fhir")) {
      // A search posted as a form (FHIR R4, 3.1.1.1) changes nothing.
      return path.endsWith("/_search") ? SEARCH : FHIR;
    }
    return switch (path) {
      case "/check", "/treatments" -> JSON_OR_SHEET;
      case "/registry/outcomes" -> LINES;
      case "/import" -> ZIP;
      default -> JSON;
    };
  }

  private static boolean isExpected(HttpServletRequest request) {
    List<MediaType> expected = expected(request.getRequestURI());
    String sent = request.getContentType();
    try {
      return sent != null
          && expected.stream().anyMatch(type -> type.includes(MediaType.parseMediaType(sent)));
    } catch (InvalidMediaTypeException e) {
      return false;
    }
  }
}
