package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * One object of the treatment file being read back, which remembers for each member where in the
 * Bundle it came from. A member that was not found is left out: the file's reader says so.
 */
final class Draft {

  private final ObjectNode json;
  private final String path;
  private final Map<String, String> memberPaths = new TreeMap<>();
  private final Map<String, Draft> objects = new TreeMap<>();
  private final Map<String, List<Draft>> lists = new TreeMap<>();

  Draft(String path) {
    this(JsonNodeFactory.instance.objectNode(), path);
  }

  private Draft(ObjectNode json, String path) {
    this.json = json;
    this.path = path;
  }

  ObjectNode json() {
    return json;
  }

  String path() {
    return path;
  }

  /** Puts a member found at a FHIRPath; nothing found, nothing put. */
  void put(String member, @Nullable JsonNode value, String foundAt) {
    if (value != null) {
      memberPaths.put(member, foundAt);
      json.set(member, value);
    }
  }

  void put(String member, @Nullable String text, String foundAt) {
    put(member, text == null ? null : JsonNodeFactory.instance.stringNode(text), foundAt);
  }

  void put(String member, boolean value, String foundAt) {
    put(member, JsonNodeFactory.instance.booleanNode(value), foundAt);
  }

  void add(String member, JsonNode value, String foundAt) {
    memberPaths.putIfAbsent(member, foundAt);
    array(member).add(value);
  }

  /** The object under a member, made when first asked for. */
  Draft object(String member, String foundAt) {
    return objects.computeIfAbsent(member, m -> new Draft(json.putObject(m), foundAt));
  }

  /** A new object at the end of a list. */
  Draft element(String member, String foundAt) {
    Draft draft = new Draft(array(member).addObject(), foundAt);
    lists.computeIfAbsent(member, m -> new ArrayList<>()).add(draft);
    return draft;
  }

  /** The list under a member, there even if nothing is ever added. */
  ArrayNode array(String member) {
    return json.get(member) instanceof ArrayNode array ? array : json.putArray(member);
  }

  /** Gives every member's JSON pointer and FHIRPath. */
  void origins(String pointer, BiConsumer<String, String> each) {
    each.accept(pointer, path);
    memberPaths.forEach((member, at) -> each.accept(child(pointer, member), at));
    objects.forEach((member, draft) -> draft.origins(child(pointer, member), each));
    lists.forEach(
        (member, drafts) -> {
          for (int i = 0; i < drafts.size(); i++) {
            drafts.get(i).origins(child(pointer, member) + "/" + i, each);
          }
        });
  }

  private static String child(String pointer, String member) {
    return pointer + "/" + member.replace("~", "~0").replace("/", "~1");
  }
}
