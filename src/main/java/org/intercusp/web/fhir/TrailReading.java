package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.access.TimeSpan;
import org.intercusp.audit.AuditQuery;
import org.intercusp.audit.AuditQuery.Place;
import org.intercusp.audit.AuditRecord;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.conformance.Outcomes;
import org.intercusp.fhir.AuditMapper;
import org.intercusp.fhir.Canonicals;
import org.intercusp.web.fhir.Offers.Search;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Component;

/**
 * The trail of deeds as FHIR AuditEvents, the newest first, to those who reach what was done. To
 * look at it is a deed too. Every page of a search speaks of what had been recorded at the moment
 * of its first.
 */
@Component
class TrailReading {

  private final AuditTrail trail;
  private final AuditMapper mapper;
  private final FhirContext context;
  private final Clock clock;
  private final Rendering rendering;
  private final Outcomes outcomes;

  TrailReading(
      AuditTrail trail,
      Canonicals canonicals,
      FhirContext context,
      Clock clock,
      Rendering rendering,
      Outcomes outcomes) {
    this.trail = trail;
    this.mapper = new AuditMapper(canonicals);
    this.context = context;
    this.clock = clock;
    this.rendering = rendering;
    this.outcomes = outcomes;
  }

  /** One record. */
  ResponseEntity<byte[]> read(Route.Call call, Asked asked, HttpServletRequest request) {
    Reading.mustKnow(asked, Set.of());
    AuditRecord one = trail.find(call.id()).orElseThrow(() -> Reading.absent(Offers.TRAIL));
    trail.done(Deed.READ, new Thing(Offers.TRAIL, one.thing().clinic(), one.id(), null, null));
    return rendering.versioned(mapper.toFhir(one), asked, request);
  }

  /** The page of a searchset that is asked for. */
  Bundle search(Asked asked) {
    SearchRequest request = new SearchRequest(Offers.TRAIL, asked);
    PageMark mark = request.mark(3).orElse(null);
    Instant moment = mark == null ? trail.moment() : instant(mark.moment());
    AuditQuery query = query(request, asked, moment);
    // Of a trail of years it is the dear part, and at one moment always the same.
    long total = mark == null ? trail.count(query) : PageMark.number(mark.place().get(2));
    Bundle bundle = request.searchset(total);
    if (request.length() > 0) {
      page(bundle, request, query, mark);
    }
    request.tell(bundle, outcomes);
    // Nothing of it has gone out yet; it is not in the answer itself.
    trail.done(Deed.SEARCH, Thing.list(Offers.TRAIL));
    return bundle;
  }

  private AuditQuery query(SearchRequest request, Asked asked, Instant moment) {
    Terms terms = new Terms(context, clock, asked.base());
    List<List<String>> ids = new ArrayList<>();
    List<List<TimeSpan>> times = new ArrayList<>();
    request.read(
        (name, value) -> {
          if (name.equals(Search.ID.code())) {
            return ids.add(terms.ids(name, value));
          }
          // A record never changes: it was last updated when it was recorded.
          boolean ofTime =
              name.equals(Search.RECORDED.code()) || name.equals(Search.LAST_UPDATED.code());
          return ofTime && times.add(terms.spans(name, value));
        });
    return new AuditQuery(ids, times, moment);
  }

  private void page(
      Bundle bundle, SearchRequest request, AuditQuery query, @Nullable PageMark mark) {
    Place after = mark == null ? null : place(mark);
    int length = request.length();
    List<AuditRecord> found = trail.search(query, after, length + 1);
    found.stream().limit(length).forEach(one -> request.add(bundle, mapper.toFhir(one)));
    if (found.size() > length) {
      AuditRecord last = found.get(length - 1);
      String time = Long.toString(micros(last.recordedAt()));
      List<String> place = List.of(time, last.id(), Integer.toString(bundle.getTotal()));
      request.next(bundle, new PageMark(micros(query.moment()), place));
    }
  }

  private static Place place(PageMark mark) {
    return new Place(instant(PageMark.number(mark.place().get(0))), mark.place().get(1));
  }

  private static long micros(Instant instant) {
    return ChronoUnit.MICROS.between(Instant.EPOCH, instant);
  }

  private static Instant instant(long micros) {
    return Instant.EPOCH.plus(micros, ChronoUnit.MICROS);
  }
}
