package org.intercusp.web.fhir;

import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.SearchEntryMode;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.conformance.Outcomes;
import org.intercusp.web.fhir.Offers.Search;

/**
 * A search being read and answered, whatever is searched: which parameters are used or left aside,
 * the page that is asked for, and the searchset with its links.
 */
final class SearchRequest {

  private final String type;
  private final Asked asked;
  private final Links links;
  private final List<Search> offered;
  private final LeftAside leftAside;

  SearchRequest(String type, Asked asked) {
    this.type = type;
    this.asked = asked;
    this.links = new Links(asked, type);
    this.offered = Offers.searches(type);
    this.leftAside = new LeftAside(asked, "that " + type + " is searched by");
  }

  /** Takes the parameters that it knows. */
  interface Taker {
    /** Whether the parameter is known here; its value is read then. */
    boolean take(String name, String value);
  }

  /** Reads every parameter; what nobody takes is told in the answer, or refused. */
  void read(Taker taker) {
    asked
        .params()
        .forEach(
            (name, values) -> {
              if (name.equals("_count")) {
                links.use(name, Integer.toString(PageMark.length(values)));
              } else if (!name.equals(PageMark.NAME)) {
                values.forEach(value -> read(name, value, taker));
              }
            });
  }

  private void read(String name, String value, Taker taker) {
    if (taker.take(name, value)) {
      links.use(name, value);
      return;
    }
    mustNotBend(name);
    leftAside.add(name);
  }

  /** To leave a modifier aside would find what was not asked for. */
  private void mustNotBend(String name) {
    String bare = name.split("[:.]", 2)[0];
    if (!bare.equals(name) && offered.stream().anyMatch(one -> one.code().equals(bare))) {
      throw Fault.of(
          Reason.PARAMETER, "The parameter " + bare + " is not taken with this modifier.");
    }
  }

  /** Whether the type is searched by this. */
  boolean offers(Search search) {
    return offered.contains(search);
  }

  /** Where the page before ended, if there was one. */
  Optional<PageMark> mark(int parts) {
    return asked.params().getOrDefault(PageMark.NAME, List.of()).stream()
        .findFirst()
        .map(text -> PageMark.read(text, parts));
  }

  /** How many are wanted on this page; 0 where only their number is. */
  int length() {
    int length = PageMark.length(asked.params().getOrDefault("_count", List.of()));
    return asked.summary() == Asked.Part.COUNT ? 0 : length;
  }

  /** The searchset, with nothing in it. */
  Bundle searchset(long total) {
    Bundle bundle = new Bundle().setType(BundleType.SEARCHSET);
    bundle.setTotal((int) Math.min(Integer.MAX_VALUE, total));
    links.self(bundle);
    return bundle;
  }

  void add(Bundle bundle, Resource found) {
    bundle
        .addEntry()
        .setFullUrl(asked.base() + "/" + type + "/" + found.getIdElement().getIdPart())
        .setResource(found)
        .getSearch()
        .setMode(SearchEntryMode.MATCH);
  }

  void next(Bundle bundle, PageMark mark) {
    links.next(bundle, mark);
  }

  /** Names what was left aside, after all that was found. */
  void tell(Bundle bundle, Outcomes outcomes) {
    leftAside
        .tell(bundle, outcomes)
        .ifPresent(entry -> entry.getSearch().setMode(SearchEntryMode.OUTCOME));
  }
}
