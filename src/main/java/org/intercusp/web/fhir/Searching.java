package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Enumerations.SearchParamType;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Interaction;
import org.intercusp.access.TimeSpan;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceQuery;
import org.intercusp.archive.ResourceQuery.Around;
import org.intercusp.archive.ResourceQuery.Coded;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.conformance.Outcomes;
import org.intercusp.fhir.search.SearchedBy;
import org.intercusp.web.fhir.Offers.Search;
import org.springframework.stereotype.Component;

/** Searches: every page of one speaks of the moment its first page was asked for. */
@Component
class Searching {

  private static final String NOT = ":not";

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
    final String type;
    final SearchRequest request;
    final Terms terms;
    final long moment;
    final List<List<String>> ids = new ArrayList<>();
    final List<List<Token>> identifiers = new ArrayList<>();
    final List<List<String>> patients = new ArrayList<>();
    final List<List<TimeSpan>> updated = new ArrayList<>();
    final List<Coded> coded = new ArrayList<>();
    final List<List<Around>> timed = new ArrayList<>();

    Wanted(String type, SearchRequest request, Terms terms, long moment) {
      this.type = type;
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
      }
      return takeTerm(name, value)
          || takePatient(Search.PATIENT, name, value)
          || takePatient(Search.SUBJECT, name, value);
    }

    private boolean takeTerm(String name, String value) {
      String bare = name.endsWith(NOT) ? name.substring(0, name.length() - NOT.length()) : name;
      for (SearchedBy by : SearchedBy.of(type)) {
        if (by.code().equals(bare) && by.type() == SearchParamType.TOKEN) {
          return coded.add(new Coded(bare, !bare.equals(name), terms.tokens(bare, value)));
        } else if (by.code().equals(name)) {
          return timed.add(terms.around(name, value));
        }
      }
      return false;
    }

    private boolean takePatient(Search search, String name, String value) {
      String code = search.code();
      if (!request.offers(search)) {
        return false;
      } else if (name.equals(code) || name.equals(code + ":Patient")) {
        return patients.add(terms.patients(name, value));
      } else if (name.equals(code + ".identifier") || name.equals(code + ":Patient.identifier")) {
        return patients.add(known(terms.tokens(name, value), moment));
      }
      return false;
    }

    ResourceQuery query() {
      return new ResourceQuery(type, ids, identifiers, patients, updated, coded, timed);
    }
  }

  private List<String> known(List<Token> tokens, long moment) {
    // What is found would tell who the patient is to those who may not know.
    if (!callers.caller().may("Patient", Interaction.SEARCH)) {
      throw Fault.of(Reason.FORBIDDEN, "You may not search by what a Patient says.");
    }
    ResourceQuery query = ResourceQuery.identified("Patient", tokens);
    return index.search(query, moment, null, PageMark.LONGEST).stream()
        .map(FiledResource::id)
        .toList();
  }

  /** The page of a searchset that is asked for. */
  Bundle search(String type, Asked asked) {
    SearchRequest request = new SearchRequest(type, asked);
    PageMark mark = request.mark(1).orElse(null);
    long moment = mark == null ? index.moment() : mark.moment();
    Wanted wanted = new Wanted(type, request, new Terms(context, clock, asked.base()), moment);
    request.read(wanted::take);
    ResourceQuery query = wanted.query();
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
