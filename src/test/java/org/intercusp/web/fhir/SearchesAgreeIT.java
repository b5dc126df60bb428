package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.rest.client.api.IGenericClient;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.RecordsServers;
import org.intercusp.fhir.search.SearchTerms;
import org.intercusp.fhir.search.Term;
import org.junit.jupiter.api.Test;

/**
 * The same resources here and on a real records server: both find the same by every code and time
 * that stands in them, with every prefix.
 */
class SearchesAgreeIT extends FhirService {

  private static final List<String> PREFIXES =
      List.of("", "ne", "gt", "lt", "ge", "le", "sa", "eb");

  /** Values of each parameter that are asked for: each is asked for in several ways. */
  private static final int MOST = Boolean.getBoolean("intercusp.long") ? 20 : 1;

  private static final String BAR = URLEncoder.encode("|", StandardCharsets.UTF_8);

  private static final Pattern OR_WITHIN =
      Pattern.compile("(?<by>.*=)(?<way>[gl])e(?<day>[0-9].*)");

  private final URI other = RecordsServers.PLAIN.baseUrl();
  private final Set<String> ids = new TreeSet<>();

  @Test
  void bothFindTheSame() throws Exception {
    List<Resource> resources = new ArrayList<>();
    for (String type : Offers.types()) {
      resources.addAll(all("/" + type + "?_count=200"));
    }
    copy(resources);
    List<String> differences = new ArrayList<>();
    Set<String> queries = queries(resources);
    for (String query : queries) {
      Set<String> here = found(base() + "/" + query);
      Set<String> there = there(query);
      if (!here.equals(there)) {
        differences.add(query + " here " + here.size() + " there " + there.size());
      }
    }
    System.out.println(queries.size() + " searches asked of both");
    assertThat(differences).isEmpty();
    assertThat(queries).hasSizeGreaterThan(200);
  }

  /**
   * R4 defines {@code ge} as what {@code gt} finds and what lies within the span that is given, and
   * {@code le} likewise. Asked with them, the other server leaves out what lies within a month, and
   * finds periods that begin or end within a day; so it is asked for the two parts.
   */
  private Set<String> there(String query) throws Exception {
    Matcher or = OR_WITHIN.matcher(query);
    if (!or.matches()) {
      return found(other + "/" + query);
    }
    Set<String> both =
        found(other + "/" + or.group("by") + or.group("way") + "t" + or.group("day"));
    both.addAll(found(other + "/" + or.group("by") + or.group("day")));
    return both;
  }

  private void copy(List<Resource> resources) {
    Bundle bundle = new Bundle().setType(BundleType.TRANSACTION);
    for (Resource one : resources) {
      ids.add(bare(one));
      one.setId(bare(one));
      bundle
          .addEntry()
          .setFullUrl(other + "/" + bare(one))
          .setResource(one)
          .getRequest()
          .setMethod(HTTPVerb.PUT)
          .setUrl(bare(one));
    }
    IGenericClient client = FHIR.newRestfulGenericClient(other.toString());
    client.transaction().withBundle(bundle).execute();
  }

  /** Of some values that stand in the resources of each type. */
  private static Set<String> queries(List<Resource> resources) {
    SearchTerms terms = new SearchTerms(FHIR);
    Map<String, Set<String>> asked = new TreeMap<>();
    for (Resource one : resources) {
      for (Term term : terms.of(one)) {
        asked
            .computeIfAbsent(one.fhirType() + "?" + term.by().code(), by -> new LinkedHashSet<>())
            .add(term instanceof Term.Coded coded ? code(coded) : day((Term.Timed) term));
      }
    }
    Set<String> queries = new LinkedHashSet<>();
    asked.forEach(
        (by, values) -> values.stream().limit(MOST).forEach(value -> add(queries, by, value)));
    return queries;
  }

  private static String code(Term.Coded coded) {
    return coded.system() + BAR + coded.code();
  }

  private static String day(Term.Timed timed) {
    Instant known = timed.begins() == null ? timed.ends() : timed.begins();
    return String.valueOf(known).substring(0, 10);
  }

  private static void add(Set<String> queries, String by, String value) {
    if (value.contains(BAR)) {
      String code = value.substring(value.indexOf(BAR) + BAR.length());
      queries.add(by + "=" + value);
      queries.add(by + "=" + code);
      queries.add(by + "=" + BAR + code);
      queries.add(by + ":not=" + value);
    } else {
      PREFIXES.forEach(prefix -> queries.add(by + "=" + prefix + value));
      PREFIXES.forEach(prefix -> queries.add(by + "=" + prefix + value.substring(0, 7)));
    }
  }

  private Set<String> found(String query) throws Exception {
    Set<String> found = new TreeSet<>();
    String next = query + "&_count=200";
    while (next != null) {
      Bundle page =
          bundle(
              HTTP.send(HttpRequest.newBuilder(URI.create(next)).build(), BodyHandlers.ofString()));
      page.getEntry().stream()
          .map(entry -> entry.getResource())
          .filter(one -> !(one instanceof OperationOutcome))
          .map(FhirService::bare)
          .filter(ids::contains)
          .forEach(found::add);
      next = page.getLink("next") == null ? null : page.getLink("next").getUrl();
    }
    return found;
  }
}
