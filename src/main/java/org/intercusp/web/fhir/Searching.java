package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.SearchEntryMode;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Interaction;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceQuery;
import org.intercusp.archive.ResourceQuery.Span;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.conformance.Outcomes;
import org.intercusp.web.fhir.Offers.Search;
import org.springframework.stereotype.Component;

/** Searches: every page of one speaks of the moment its first page was asked for. */
@Component
class Searching {

  private final FhirContext context;
  private final Clock clock;
  private final ResourceIndex index;
  private final Rendering rendering;
  private final Outcomes outcomes;
  private final CurrentCaller callers;

  Searching(
      FhirContext context,
      Clock clock,
      ResourceIndex index,
      Rendering rendering,
      Outcomes outcomes,
      CurrentCaller callers) {
    this.context = context;
    this.clock = clock;
    this.index = index;
    this.rendering = rendering;
    this.outcomes = outcomes;
    this.callers = callers;
  }

  /** A search being read. */
  private final class Reading {
    final String type;
    final Terms terms;
    final Links links;
    final List<List<String>> ids = new ArrayList<>();
    final List<List<Token>> identifiers = new ArrayList<>();
    final List<List<String>> patients = new ArrayList<>();
    final List<List<Span>> updated = new ArrayList<>();
    final LeftAside leftAside;

    Reading(String type, Asked asked) {
      this.type = type;
      this.terms = new Terms(context, clock, asked.base());
      this.links = new Links(asked, type);
      this.leftAside = new LeftAside(asked, "that " + type + " is searched by");
    }

    void read(String name, List<String> values, long moment) {
      for (String value : values) {
        if (take(name, value, moment)) {
          links.use(name, value);
        } else {
          leftAside.add(name);
        }
      }
    }

    private boolean take(String name, String value, long moment) {
      List<Search> offered = Offers.searches(type);
      if (name.equals("_id")) {
        return ids.add(terms.ids(name, value));
      } else if (name.equals("_lastUpdated")) {
        return updated.add(terms.spans(name, value));
      } else if (name.equals("identifier")) {
        return identifiers.add(terms.tokens(name, value));
      } else if (offered.contains(Search.PATIENT)) {
        if (name.equals("patient") || name.equals("patient:Patient")) {
          return patients.add(terms.patients(name, value));
        } else if (name.equals("patient.identifier") || name.equals("patient:Patient.identifier")) {
          return patients.add(known(terms.tokens(name, value), moment));
        }
      }
      mustNotBend(name, offered);
      return false;
    }

    /** To leave a modifier aside would find what was not asked for. */
    private void mustNotBend(String name, List<Search> offered) {
      String bare = name.split("[:.]", 2)[0];
      if (!bare.equals(name) && offered.stream().anyMatch(one -> one.code().equals(bare))) {
        throw Fault.of(
            Reason.PARAMETER, "The parameter " + bare + " is not taken with this modifier.");
      }
    }

    ResourceQuery query() {
      return new ResourceQuery(type, ids, identifiers, patients, updated);
    }
  }

  private List<String> known(List<Token> tokens, long moment) {
    // What is found would tell who the patient is to those who may not know.
    if (!callers.caller().may("Patient", Interaction.SEARCH)) {
      throw Fault.of(Reason.FORBIDDEN, "You may not search by what a Patient says.");
    }
    ResourceQuery query =
        new ResourceQuery("Patient", List.of(), List.of(tokens), List.of(), List.of());
    return index.search(query, moment, null, PageMark.LONGEST).stream()
        .map(FiledResource::id)
        .toList();
  }

  /** The page of a searchset that is asked for. */
  Bundle search(String type, Asked asked) {
    List<String> marks = asked.params().getOrDefault(PageMark.NAME, List.of());
    PageMark mark = marks.isEmpty() ? null : PageMark.read(marks.get(0), 1);
    long moment = mark == null ? index.moment() : mark.moment();
    Reading reading = new Reading(type, asked);
    asked
        .params()
        .forEach(
            (name, values) -> {
              if (name.equals("_count")) {
                reading.links.use(name, Integer.toString(PageMark.length(values)));
              } else if (!name.equals(PageMark.NAME)) {
                reading.read(name, values, moment);
              }
            });
    Bundle bundle = new Bundle().setType(BundleType.SEARCHSET);
    ResourceQuery query = reading.query();
    bundle.setTotal(Math.toIntExact(index.count(query, moment)));
    reading.links.self(bundle);
    int length = PageMark.length(asked.params().getOrDefault("_count", List.of()));
    if (length > 0 && asked.summary() != Asked.Part.COUNT) {
      String after = mark == null ? null : mark.place().get(0);
      List<FiledResource> found = index.search(query, moment, after, length + 1);
      found.stream().limit(length).forEach(one -> add(bundle, one, asked));
      if (found.size() > length) {
        String last = found.get(length - 1).id();
        reading.links.next(bundle, new PageMark(moment, List.of(last)));
      }
    }
    if (!reading.leftAside.issues().isEmpty()) {
      bundle
          .addEntry()
          .setResource(outcomes.of(reading.leftAside.issues()))
          .getSearch()
          .setMode(SearchEntryMode.OUTCOME);
    }
    return bundle;
  }

  private void add(Bundle bundle, FiledResource found, Asked asked) {
    bundle
        .addEntry()
        .setFullUrl(asked.base() + "/" + found.type() + "/" + found.id())
        .setResource(rendering.resource(found))
        .getSearch()
        .setMode(SearchEntryMode.MATCH);
  }
}
