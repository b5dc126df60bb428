package org.intercusp.exchange.wire;

import java.net.URI;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Follows the pages of a search, which lie on the server that was asked and nowhere else. */
final class Pages {

  /** Reads what lies at an address. */
  interface Reading {
    Resource read(URI url) throws Trouble;
  }

  private final Target target;
  private final Reading reading;
  private final int most;

  Pages(Target target, Reading reading, int most) {
    this.target = target;
    this.reading = reading;
    this.most = most;
  }

  /** All resources of the type on the first page and on those that follow it. */
  List<Resource> from(String type, Resource first) throws Trouble {
    List<Resource> found = new ArrayList<>();
    Resource page = first;
    for (int pages = 1; ; pages++) {
      if (!(page instanceof Bundle bundle)) {
        throw new Trouble(Difficulty.NOT_FHIR, "A search for " + type + " gave no Bundle");
      }
      for (BundleEntryComponent entry : bundle.getEntry()) {
        if (entry.getResource() != null && entry.getResource().fhirType().equals(type)) {
          found.add(entry.getResource());
        }
      }
      URI next = next(bundle);
      if (next == null) {
        return found;
      }
      if (pages == most) {
        throw new Trouble(
            Difficulty.UNACCEPTABLE, "A search for " + type + " has more than " + most + " pages");
      }
      page = reading.read(next);
    }
  }

  private @Nullable URI next(Bundle bundle) throws Trouble {
    Bundle.BundleLinkComponent link = bundle.getLink("next");
    if (link == null || !link.hasUrl()) {
      return null;
    }
    try {
      return Place.onSameHost(target.baseUrl(), link.getUrl());
    } catch (IllegalArgumentException e) {
      throw new Trouble(
          Difficulty.ELSEWHERE, "A next page lies on another host, which is not called");
    }
  }
}
