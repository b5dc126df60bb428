package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.exchange.records.Parcel.Item;

/**
 * The order in which new resources can be created one after the other: each after what it refers
 * to. Where they refer to each other in a ring, the one with the fewest such references goes first
 * without them and is completed in the end.
 */
final class Layers {

  /**
   * Resources that can be created together.
   *
   * @param loose by urn of a resource in it: what its references have to be left out to
   */
  record Layer(List<Item> items, Map<String, Set<String>> loose) {}

  private Layers() {}

  static List<Layer> of(Parcel parcel, List<Item> creates) {
    Map<String, Item> open = new LinkedHashMap<>();
    creates.forEach(item -> open.put(item.urn(), item));
    Map<String, Set<String>> needs = new HashMap<>();
    creates.forEach(item -> needs.put(item.urn(), new HashSet<>(parcel.needs(item))));
    List<Layer> layers = new ArrayList<>();
    while (!open.isEmpty()) {
      needs.values().forEach(needed -> needed.retainAll(open.keySet()));
      List<Item> free =
          open.values().stream().filter(item -> wanted(needs, item).isEmpty()).toList();
      Map<String, Set<String>> loose = new HashMap<>();
      if (free.isEmpty()) {
        Item first =
            open.values().stream()
                .min(Comparator.comparingInt(item -> wanted(needs, item).size()))
                .orElseThrow();
        loose.put(first.urn(), new LinkedHashSet<>(wanted(needs, first)));
        free = List.of(first);
      }
      layers.add(new Layer(free, loose));
      free.forEach(item -> open.remove(item.urn()));
    }
    return layers;
  }

  private static Set<String> wanted(Map<String, Set<String>> needs, Item item) {
    return needs.getOrDefault(item.urn(), Set.of());
  }
}
