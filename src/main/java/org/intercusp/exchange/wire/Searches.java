package org.intercusp.exchange.wire;

import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Resource;

/**
 * Several searches, asked as one batch where the server takes batches. Whatever it does not answer
 * there with what was sought, and everything where it takes none, is asked by itself.
 */
public final class Searches {

  /** One search. */
  public record Search(String type, String query) {}

  /** Not busy or out of reach: the server does not want the batch, or what it says is of no use. */
  private static final Set<Difficulty> UNWILLING =
      EnumSet.of(
          Difficulty.REFUSED,
          Difficulty.FAILED,
          Difficulty.NOT_FHIR,
          Difficulty.CONTENDED,
          Difficulty.UNACCEPTABLE,
          Difficulty.ELSEWHERE);

  private final FhirServer server;
  private final Map<Search, Bundle> first;

  private Searches(FhirServer server, Map<Search, Bundle> first) {
    this.server = server;
    this.first = first;
  }

  /** Asks at once what can be; the rest is asked when it is wanted. */
  public static Searches of(FhirServer server, Collection<Search> searches) throws Trouble {
    boolean together = searches.size() > 1 && server.takesBatches();
    return new Searches(server, together ? asked(server, List.copyOf(searches)) : Map.of());
  }

  private static Map<Search, Bundle> asked(FhirServer server, List<Search> searches)
      throws Trouble {
    Bundle questions = new Bundle().setType(BundleType.BATCH);
    for (Search one : searches) {
      questions
          .addEntry()
          .getRequest()
          .setMethod(HTTPVerb.GET)
          .setUrl(one.type() + "?" + one.query());
    }
    Map<Search, Bundle> first = new HashMap<>();
    List<BundleEntryComponent> answers = answers(server, questions);
    for (int i = 0; i < searches.size() && answers.size() == searches.size(); i++) {
      BundleEntryComponent said = answers.get(i);
      boolean done = String.valueOf(said.getResponse().getStatus()).startsWith("200");
      if (done
          && said.getResource() instanceof Bundle page
          && page.getType() == BundleType.SEARCHSET) {
        first.put(searches.get(i), page);
      }
    }
    if (first.isEmpty()) {
      server.withoutBatches();
    }
    return first;
  }

  private static List<BundleEntryComponent> answers(FhirServer server, Bundle questions)
      throws Trouble {
    try {
      return server.ask(questions) instanceof Bundle said ? said.getEntry() : List.of();
    } catch (Trouble e) {
      if (UNWILLING.contains(e.difficulty())) {
        return List.of();
      }
      throw e;
    }
  }

  /** All that one of the searches finds. */
  public List<Resource> found(Search search) throws Trouble {
    Bundle page = first.get(search);
    return page == null
        ? server.search(search.type(), search.query())
        : server.pages(search.type(), page);
  }
}
