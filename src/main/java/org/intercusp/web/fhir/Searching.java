package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Interaction;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceQuery;
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

  /** What a search is by. */
  private final class Wanted {
    final SearchRequest request;
    final Terms terms;
    final long moment;
    final List<List<String>> ids = new ArrayList<>();
    final List<List<Token>> identifiers = new ArrayList<>();
    final List<List<String>> patients = new ArrayList<>();
    final List<List<TimeSpan>> updated = new ArrayList<>();

    Wanted(SearchRequest request, Terms terms, long moment) {
      this.request = request;
      this.terms = terms;
      this.moment = moment;
    }

    boolean take(String name, String value) {
      if (name.equals("_id")) {
        return ids.add(terms.ids(name, value));
      } else if (name.equals("_lastUpdated")) {
        return updated.add(terms.spans(name, value));
      } else if (name.equals("identifier")) {
        return identifiers.add(terms.tokens(name, value));
      } else if (request.offers(Search.PATIENT)) {
        if (name.equals("patient") || name.equals("patient:Patient")) {
          return patients.add(terms.patients(name, value));
        } else if (name.equals("patient.identifier") || name.equals("patient:Patient.identifier")) {
          return patients.add(known(terms.tokens(name, value), moment));
        }
      }
      return false;
    }

    ResourceQuery query(String type) {
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
    SearchRequest request = new SearchRequest(type, asked);
    PageMark mark = request.mark(1).orElse(null);
    long moment = mark == null ? index.moment() : mark.moment();
    Wanted wanted = new Wanted(request, new Terms(context, clock, asked.base()), moment);
    request.read(wanted::take);
    ResourceQuery query = wanted.query(type);
    Bundle bundle = request.searchset(index.count(query, moment));
    int length = request.length();
    if (length > 0) {
      String after = mark == null ? null : mark.place().get(0);
      List<FiledResource> found = index.search(query, moment, after, length + 1);
      found.stream().limit(length).forEach(one -> request.add(bundle, rendering.resource(one)));
      if (found.size() > length) {
        String last = found.get(length - 1).id();
        request.next(bundle, new PageMark(moment, List.of(last)));
      }
    }
    request.tell(bundle, outcomes);
    return bundle;
  }
}
