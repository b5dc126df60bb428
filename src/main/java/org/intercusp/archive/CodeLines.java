package org.intercusp.archive;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.archive.ResourceTerms.Code;

/**
 * Codes as a text, and what is looked for in it. Each code is a line with its system and one
 * without, and every line stands between two line breaks.
 */
final class CodeLines {

  private static final String END = "\n";

  private CodeLines() {}

  /** The text of some codes. */
  static String of(List<Code> codes) {
    Set<String> lines = new LinkedHashSet<>();
    for (Code code : codes) {
      lines.add(withSystem(code.name(), code.system()) + code.code());
      lines.add(whicheverSystem(code.name()) + code.code());
    }
    return END + String.join(END, lines) + END;
  }

  /** What stands in the text where there is such a code. */
  static String wanted(String name, Token token) {
    String before =
        END + (token.system() == null ? whicheverSystem(name) : withSystem(name, token.system()));
    return token.value() == null ? before : before + token.value() + END;
  }

  private static String withSystem(String name, String system) {
    return name + " " + system + "|";
  }

  /** No system begins with white space, so this is never the beginning of the other. */
  private static String whicheverSystem(String name) {
    return name + "\t";
  }
}
