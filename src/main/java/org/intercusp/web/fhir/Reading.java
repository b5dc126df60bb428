package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceIndex.Past;
import org.intercusp.archive.ResourceIndex.Place;
import org.intercusp.conformance.Outcomes;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/** Reads of one resource, and histories. */
@Component
class Reading {

  private static final Set<String> OF_HISTORY = Set.of("_count", "_since", PageMark.NAME);

  private final ResourceIndex index;
  private final Rendering rendering;
  private final Outcomes outcomes;

  Reading(ResourceIndex index, Rendering rendering, Outcomes outcomes) {
    this.index = index;
    this.rendering = rendering;
    this.outcomes = outcomes;
  }

  ResponseEntity<byte[]> read(Route.Call call, Asked asked, HttpServletRequest request) {
    mustKnow(asked, Set.of());
    FiledResource filed =
        index.current(call.type(), call.id()).orElseThrow(() -> absent(call.type()));
    return answer(filed, asked, request);
  }

  ResponseEntity<byte[]> vread(Route.Call call, Asked asked, HttpServletRequest request) {
    mustKnow(asked, Set.of());
    int version = call.version().matches("\\d{1,9}") ? Integer.parseInt(call.version()) : 0;
    FiledResource filed =
        index
            .version(call.type(), call.id(), version)
            .orElseThrow(() -> absent("version of this " + call.type()));
    return answer(filed, asked, request);
  }

  private ResponseEntity<byte[]> answer(
      FiledResource filed, Asked asked, HttpServletRequest request) {
    HttpHeaders headers = new HttpHeaders();
    headers.add(
        HttpHeaders.CONTENT_LOCATION,
        asked.base() + "/" + filed.type() + "/" + filed.id() + "/_history/" + filed.version());
    return rendering.versioned(rendering.resource(filed), headers, asked, request);
  }

  /** The page of a history that is asked for. */
  Bundle history(@Nullable String type, @Nullable String id, Asked asked) {
    LeftAside leftAside = new LeftAside(asked, "of a history");
    asked.params().keySet().stream()
        .filter(name -> !OF_HISTORY.contains(name))
        .forEach(leftAside::add);
    if (type != null && id != null && !index.has(type, id)) {
      throw absent(type);
    }
    String path = (type == null ? "" : type + "/") + (id == null ? "" : id + "/") + "_history";
    Links links = new Links(asked, path);
    List<String> marks = asked.params().getOrDefault(PageMark.NAME, List.of());
    PageMark mark = marks.isEmpty() ? null : PageMark.read(marks.get(0), 3);
    List<String> sinces = asked.params().getOrDefault("_since", List.of());
    sinces.forEach(since -> links.use("_since", since));
    Instant since = sinces.isEmpty() ? null : Terms.instant("_since", sinces.get(0));
    int length = PageMark.length(asked.params().getOrDefault("_count", List.of()));
    if (asked.params().containsKey("_count")) {
      links.use("_count", Integer.toString(length));
    }
    Past past = new Past(type, id, since, mark == null ? index.moment() : mark.moment());
    Bundle bundle = new Bundle().setType(BundleType.HISTORY);
    bundle.setTotal(Math.toIntExact(index.count(past)));
    links.self(bundle);
    if (length > 0 && asked.summary() != Asked.Part.COUNT) {
      page(bundle, links, past, mark, length, asked);
    }
    leftAside.tell(bundle, outcomes).ifPresent(entry -> asked(entry, path));
    return bundle;
  }

  /**
   * An entry of a history has a request and an answer (bdl-3, bdl-4): that of the history itself.
   */
  private static void asked(Bundle.BundleEntryComponent entry, String path) {
    entry.getRequest().setMethod(HTTPVerb.GET).setUrl(path);
    entry.getResponse().setStatus("200 OK");
  }

  private void page(
      Bundle bundle, Links links, Past past, @Nullable PageMark mark, int length, Asked asked) {
    Place after = null;
    if (mark != null) {
      List<String> place = mark.place();
      after = new Place(PageMark.number(place.get(0)), place.get(1), place.get(2));
    }
    List<FiledResource> found = index.history(past, after, length + 1);
    found.stream().limit(length).forEach(one -> add(bundle, one, asked));
    if (found.size() > length) {
      FiledResource last = found.get(length - 1);
      List<String> place = List.of(Long.toString(last.sequence()), last.type(), last.id());
      links.next(bundle, new PageMark(past.moment(), place));
    }
  }

  private void add(Bundle bundle, FiledResource version, Asked asked) {
    boolean first = version.version() == 1;
    String place = version.type() + "/" + version.id();
    Bundle.BundleEntryComponent entry = bundle.addEntry();
    entry.setFullUrl(asked.base() + "/" + place).setResource(rendering.resource(version));
    entry
        .getRequest()
        .setMethod(first ? HTTPVerb.POST : HTTPVerb.PUT)
        .setUrl(first ? version.type() : place);
    entry
        .getResponse()
        .setStatus(first ? "201 Created" : "200 OK")
        .setEtag(Rendering.tag(version))
        .setLastModified(java.util.Date.from(version.updatedAt()));
  }

  static void mustKnow(Asked asked, Set<String> known) {
    if (asked.strict()) {
      asked.params().keySet().stream()
          .filter(name -> !known.contains(name))
          .findFirst()
          .ifPresent(
              name -> {
                throw Fault.of(Reason.PARAMETER, "There is a parameter this path does not know.");
              });
    }
  }

  static Fault absent(String what) {
    return Fault.of(Reason.NOT_FOUND, "There is no such " + what + ".");
  }
}
