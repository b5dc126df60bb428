package org.intercusp.web.fhir;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
    used.add(encoded(name) + "=" + encoded(value));
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

  private static String encoded(String text) {
    return UriUtils.encode(text, StandardCharsets.UTF_8);
  }
}
