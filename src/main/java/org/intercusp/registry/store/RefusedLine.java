package org.intercusp.registry.store;

import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.registry.privacy.Pseudonyms;
import org.intercusp.treatment.submission.Refusal;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * One reason for a refusal as a line of NDJSON: line, code, pointer, what was expected; never what
 * stood there. The kept form names the person by pseudonym, so that a withdrawal finds it.
 */
public final class RefusedLine {

  /** How the file of a load's refusals ends. */
  public static final String SUFFIX = ".refusals.ndjson";

  private static final JsonMapper JSON = new JsonMapper();

  /** Member names as people choose them; anything else may be a slip of the pen. */
  private static final Pattern PLAIN = Pattern.compile("[A-Za-z][A-Za-z0-9]{0,30}");

  private static final Pattern PERSON =
      Pattern.compile("\"person\":\"([A-Za-z0-9_-]+)\",\"key\":\"([^\"]+)\"\\}$");

  private RefusedLine() {}

  /** The line, without its end. */
  public static String of(long line, Refusal refusal, @Nullable String person, String keyId) {
    ObjectNode node = JSON.createObjectNode();
    node.put("line", line);
    node.put("code", refusal.code());
    node.put("pointer", pointer(refusal));
    node.put("expected", refusal.expected());
    if (person != null) {
      node.put("person", person).put("key", keyId);
    }
    return JSON.writeValueAsString(node);
  }

  /** The name of a member nobody knows is the sender's text, which is not kept unless plain. */
  private static String pointer(Refusal refusal) {
    String text = refusal.at().text();
    int last = text.lastIndexOf('/');
    boolean named = refusal.code().equals("unknown-member") && last >= 0;
    return named && !PLAIN.matcher(text.substring(last + 1)).matches()
        ? text.substring(0, last)
        : text;
  }

  /** The line without whom it is about. */
  public static String forPeople(String line) {
    Matcher person = PERSON.matcher(line);
    return person.find() ? line.substring(0, person.start() - 1) + "}" : line;
  }

  static boolean isOf(String line, Set<String> persons, Pseudonyms pseudonyms) {
    Matcher person = PERSON.matcher(line);
    return person.find()
        && persons.contains(pseudonyms.carriedOn(person.group(1), person.group(2)));
  }
}
