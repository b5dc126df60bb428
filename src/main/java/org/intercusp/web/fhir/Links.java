package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.springframework.web.util.UriUtils;

/** The links of a list: what was understood of the request, and where it goes on. */
final class Links {

  private final String place;
  private final List<String> used = new ArrayList<>();

  /** Of the list at a place below the base. */
  Links(Asked asked, String path) {
    this.place = asked.base() + (path.isEmpty() ? "" : "/" + path);
    if (asked.formatSaid()) {
      use("_format", asked.format().name().toLowerCase(Locale.ROOT));
    }
    if (asked.pretty()) {
      use("_pretty", "true");
    }
    if (asked.summary() != Asked.Part.FALSE) {
      use("_summary", asked.summary().name().toLowerCase(Locale.ROOT));
    }
    if (!asked.elements().isEmpty()) {
      use("_elements", String.join(",", asked.elements()));
    }
  }

  void use(String name, String value) {
    used.add(pair(name, value));
  }

  void self(Bundle bundle) {
    bundle.addLink().setRelation("self").setUrl(url(used));
  }

  void next(Bundle bundle, PageMark mark) {
    List<String> further = new ArrayList<>(used);
    further.add(PageMark.NAME + "=" + mark.write());
    bundle.addLink().setRelation("next").setUrl(url(further));
  }

  private String url(List<String> query) {
    return query.isEmpty() ? place : place + "?" + String.join("&", query);
  }

  /** What a request asks, as path and parameters, whether they came in its address or its form. */
  static String written(String path, HttpServletRequest request) {
    String parameters =
        request.getParameterMap().entrySet().stream()
            .flatMap(one -> Arrays.stream(one.getValue()).map(value -> pair(one.getKey(), value)))
            .collect(Collectors.joining("&"));
    return parameters.isEmpty() ? path : path + "?" + parameters;
  }

  private static String pair(String name, String value) {
    return encoded(name) + "=" + encoded(value);
  }

  private static String encoded(String text) {
    return UriUtils.encode(text, StandardCharsets.UTF_8);
  }
}
