package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.rest.client.api.IGenericClient;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
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

  private final URI other = RecordsServers.PLAIN.baseUrl();
  private final Set<String> ids = new TreeSet<>();

  @Test
  void bothFindTheSame() throws Exception {
    List<Resource> resources = new ArrayList<>();
    for (String type : Offers.types()) {
      resources.addAll(all("/" + type + "?_count=200"));
    }
    copy(resources);
    int asked = 0;
    List<String> differences = new ArrayList<>();
    for (String query : queries(resources)) {
      asked++;
      Set<String> here = found(base() + "/" + query);
      Set<String> there = found(other + "/" + query);
      if (!here.equals(there)) {
        differences.add(query + " here " + here.size() + " there " + there.size());
      }
    }
    System.out.println(asked + " searches asked of both");
    assertThat(differences).isEmpty();
    assertThat(asked).isGreaterThan(200);
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

  private static Set<String> queries(List<Resource> resources) {
    SearchTerms terms = new SearchTerms(FHIR);
    Set<String> queries = new LinkedHashSet<>();
    for (Resource one : resources) {
      for (Term term : terms.of(one)) {
        String by = one.fhirType() + "?" + term.by().code();
        if (term instanceof Term.Coded coded) {
          String bar = URLEncoder.encode("|", StandardCharsets.UTF_8);
          queries.add(by + "=" + coded.code());
          queries.add(by + "=" + coded.system() + bar + coded.code());
          queries.add(by + "=" + bar + coded.code());
          queries.add(by + ":not=" + coded.system() + bar + coded.code());
        } else if (term instanceof Term.Timed timed) {
          String day = String.valueOf(timed.begins()).substring(0, 10);
          for (String prefix : PREFIXES) {
            queries.add(by + "=" + prefix + day);
            queries.add(by + "=" + prefix + day.substring(0, 7));
          }
        }
      }
    }
    return queries;
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
