package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Searches;
import org.intercusp.exchange.wire.Searches.Search;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;

/** What a server holds of certain names, found by searching, several names in one search. */
public final class Snapshot {

  /** A resource type and what one of its resources is found by. */
  public record Name(String type, Token token) {}

  /** URLs up to 2,000 characters pass everywhere: common practice, no source. */
  private static final int LONGEST_QUERY = 1_700;

  /** Names asked for at once; common practice, no source. */
  private static final int MOST_IN_A_SEARCH = 20;

  private final Map<Name, List<Resource>> found;
  private final Map<Name, String> preferred;

  private Snapshot(Map<Name, List<Resource>> found, Map<Name, String> preferred) {
    this.found = found;
    this.preferred = preferred;
  }

  /** The same where these have the name, and of them the first is the one that counts. */
  Snapshot with(Name name, List<Resource> resources) {
    Map<Name, List<Resource>> all = new HashMap<>(found);
    Map<Name, String> first = new HashMap<>(preferred);
    all.put(name, resources);
    resources.stream()
        .limit(1)
        .forEach(resource -> first.put(name, resource.getIdElement().getIdPart()));
    return new Snapshot(all, first);
  }

  /** Searches for these names; trouble when not all of them could be searched for. */
  public static Snapshot of(FhirServer server, Collection<Name> names) throws Trouble {
    Map<String, Set<Token>> byType = new TreeMap<>();
    for (Name name : names) {
      String group = name.type() + "?" + name.token().parameter();
      byType.computeIfAbsent(group, key -> new LinkedHashSet<>()).add(name.token());
    }
    Map<Search, List<Token>> searches = new LinkedHashMap<>();
    for (Map.Entry<String, Set<Token>> group : byType.entrySet()) {
      String[] sides = group.getKey().split("\\?", 2);
      for (List<Token> some : portions(group.getValue())) {
        searches.put(search(sides[0], sides[1], some), some);
      }
    }
    Searches together = Searches.of(server, searches.keySet());
    Map<Name, List<Resource>> found = new HashMap<>();
    for (Map.Entry<Search, List<Token>> one : searches.entrySet()) {
      take(one.getKey().type(), together.found(one.getKey()), one.getValue(), found);
    }
    return new Snapshot(found, Map.of());
  }

  private static Search search(String type, String parameter, List<Token> tokens) {
    List<String> values = tokens.stream().map(Token::encoded).toList();
    return new Search(type, parameter + "=" + String.join(",", values) + "&_count=100");
  }

  private static List<List<Token>> portions(Set<Token> tokens) {
    List<List<Token>> portions = new ArrayList<>();
    List<Token> portion = new ArrayList<>();
    int length = 0;
    for (Token token : tokens) {
      int more = token.encoded().length() + 1;
      boolean full = portion.size() == MOST_IN_A_SEARCH || length + more > LONGEST_QUERY;
      if (full && !portion.isEmpty()) {
        portions.add(portion);
        portion = new ArrayList<>();
        length = 0;
      }
      portion.add(token);
      length += more;
    }
    portions.add(portion);
    return portions;
  }

  private static void take(
      String type, List<Resource> resources, List<Token> tokens, Map<Name, List<Resource>> found) {
    for (Resource resource : distinct(resources)) {
      for (Token token : tokens) {
        if (token.isOn(resource)) {
          found.computeIfAbsent(new Name(type, token), key -> new ArrayList<>()).add(resource);
        }
      }
    }
  }

  private static Collection<Resource> distinct(List<Resource> resources) {
    Map<String, Resource> byId = new LinkedHashMap<>();
    resources.forEach(one -> byId.putIfAbsent(one.getIdElement().getIdPart(), one));
    return byId.values();
  }

  /** Everything that has the name, in the order of its ids. */
  public List<Resource> all(Name name) {
    return found.getOrDefault(name, List.of()).stream().sorted(BY_ID).toList();
  }

  /** The one that counts: the one delivered before, else the one with the first id. */
  Optional<Resource> chosen(Name name, Ledger ledger) {
    List<Resource> all = all(name);
    Optional<String> before =
        Optional.ofNullable(preferred.get(name))
            .or(() -> ledger.line(name.type(), name.token()).map(Ledger.Line::id));
    return all.stream()
        .filter(one -> before.filter(one.getIdElement().getIdPart()::equals).isPresent())
        .findFirst()
        .or(() -> all.stream().findFirst());
  }

  // Numbers by size: of two duplicates the older one counts, and stays the one that counts.
  private static final Comparator<Resource> BY_ID =
      Comparator.comparing((Resource one) -> one.getIdElement().getIdPart().length())
          .thenComparing(one -> one.getIdElement().getIdPart());
}
