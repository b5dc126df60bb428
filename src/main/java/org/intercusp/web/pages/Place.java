package org.intercusp.web.pages;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.util.UriUtils;

/** An address of this service: a path and what follows it, encoded; what is empty is left out. */
final class Place {

  private final String path;
  private final List<String> query = new ArrayList<>();
  private String fragment = "";

  private Place(String path) {
    this.path = path;
  }

  /** Steps of a path, each encoded. */
  static Place of(String... steps) {
    StringBuilder path = new StringBuilder();
    for (String step : steps) {
      path.append('/').append(UriUtils.encode(step, "UTF-8"));
    }
    return new Place(path.isEmpty() ? "/" : path.toString());
  }

  Place with(String name, @Nullable String value) {
    if (value != null && !value.isBlank()) {
      query.add(name + "=" + UriUtils.encode(value, "UTF-8"));
    }
    return this;
  }

  Place at(String anchor) {
    fragment = "#" + anchor;
    return this;
  }

  @Override
  public String toString() {
    return path + (query.isEmpty() ? "" : "?" + String.join("&", query)) + fragment;
  }
}
