package org.intercusp.rules.appliance;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What is left of a text once all that its denials speak of is gone. A denial in front of words
 * speaks of these words; behind words, of these; alone in its clause, of all that stands before it,
 * and as the first of all, of the whole text. One of a coating or a solder speaks of that alone:
 * beneath it may be anything. Where the words leave it open, more is left rather than less.
 */
final class Undenied {

  private static final Pattern CLAUSE =
      Pattern.compile("[,;()+&|]|/(?!\\d)|(?<!\\d)/|\\s[-–—]+\\s|\\b(?:and|plus|but)\\b");

  private static final Pattern PREPOSITION =
      Pattern.compile("\\b(?:with|in|on|to|under|over|of|for|by|beside)\\b");

  /** What is only part of a piece: that it is free of something says nothing of the piece. */
  private static final String PIECE_OF =
      "(?:coat|plat(?:ed|ing)|clad|layer|surface|finish|solder|weld|sleeve|varnish|lacquer|glaze"
          + "|pigment|adhesive|monomer)\\p{L}*";

  private static final Pattern PIECE_FIRST = Pattern.compile("[-\\s]*" + PIECE_OF);
  private static final Pattern PIECE_LAST = Pattern.compile(PIECE_OF + "[^\\p{L}\\d]*$");

  /** Words beside a denial that name nothing it could be kept to. */
  private static final String FILLER =
      "\\d+(?:mm)?|mm|all|parts?|is|are|which|that|the|a|an|it|both|entirely|completely|fully"
          + "|certified|guaranteed|alloys?|metals?|materials?|grade|type|quality|content";

  /** Words that name no material: behind a denial they add to what it speaks of. */
  private static final String PLAIN =
      "clasps?|bows?|wires?|screws?|springs?|base|plates?|blocks?|hard|soft|round|half|clear"
          + "|transparent|pink|blue|green|red|white|colou?r(?:ed|less)?";

  private static final Pattern FILLERS = only(FILLER);
  private static final Pattern PLAINS = only(FILLER + "|" + PLAIN);

  private final Pattern telling;
  private final List<String> left = new ArrayList<>();
  private boolean cleared;
  private boolean begun;
  private boolean headed;

  Undenied(Pattern telling) {
    this.telling = telling;
  }

  static List<String> clauses(String lower) {
    return List.of(CLAUSE.split(lower));
  }

  /** A clause without a denial. */
  void plain(String clause) {
    begun = true;
    if (!cleared || !PLAINS.matcher(clause).matches()) {
      left.add(clause);
    }
  }

  /** A clause with one, by what stands before it and behind it. */
  void denied(String before, String behind) {
    Matcher first = PIECE_FIRST.matcher(behind);
    Matcher last = PIECE_LAST.matcher(before);
    if (first.lookingAt()) {
      left.add(before + behind.substring(first.end()));
    } else if (!FILLERS.matcher(behind).matches()) {
      keep(before);
      Matcher further = PREPOSITION.matcher(behind);
      keep(further.find() ? behind.substring(further.start()) : "");
      cleared = true;
    } else if (last.find()) {
      left.add(before.substring(0, last.start()));
    } else {
      behind(before);
      cleared = true;
    }
    begun = true;
  }

  /** A denial that ends its clause. */
  private void behind(String before) {
    if (FILLERS.matcher(before).matches()) {
      headed |= !begun;
      left.clear();
      return;
    }
    Matcher prepositions = PREPOSITION.matcher(before);
    int end = 0;
    int start = 0;
    while (prepositions.find()) {
      start = prepositions.start();
      end = prepositions.end();
    }
    keep(FILLERS.matcher(before.substring(end)).matches() ? "" : before.substring(0, start));
  }

  private void keep(String words) {
    if (telling.matcher(words).find()) {
      left.add(words);
    }
  }

  /** All of it; blank where the denials speak of everything. */
  String text() {
    return headed ? "" : String.join(", ", left).strip();
  }

  private static Pattern only(String words) {
    return Pattern.compile("[^\\p{L}\\d]*(?:(?:%s)(?![\\p{L}\\d])[^\\p{L}\\d]*)*".formatted(words));
  }
}
