package org.intercusp.treatment.sheet;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.intercusp.treatment.shape.Node;

/** What a cell is written as in the treatment file. */
enum CellKind {
  TEXT,
  NUMBER,
  FLAG,
  /** Words with {@code |} between them; {@code none} where somebody looked and found none. */
  TEXTS;

  static final String NONE = "none";

  /** Longest number that is expanded; far above any the trade writes. */
  private static final Pattern PLAIN = Pattern.compile("[+-]?[0-9]{1,12}(\\.[0-9]{1,12})?");

  /**
   * The cell as a node; where it is not of this kind it stays a text, which the strict reader then
   * refuses in its own words.
   *
   * @param sign how the sheet writes its decimals
   */
  Node read(String cell, DecimalSign sign) {
    return switch (this) {
      case TEXT -> new Node.Str(cell);
      case NUMBER -> number(sign == DecimalSign.COMMA ? cell.replace(',', '.') : cell, cell);
      case FLAG -> flag(cell);
      case TEXTS -> texts(cell);
    };
  }

  private static Node number(String plain, String cell) {
    if (!PLAIN.matcher(plain).matches()) {
      return new Node.Str(cell);
    }
    String text = plain.startsWith("+") ? plain.substring(1) : plain;
    return new Node.Num(text, new BigDecimal(text));
  }

  private static Node flag(String cell) {
    return switch (cell) {
      case "true", "TRUE", "True" -> new Node.Bool(true);
      case "false", "FALSE", "False" -> new Node.Bool(false);
      default -> new Node.Str(cell);
    };
  }

  private static Node texts(String cell) {
    if (cell.equals(NONE)) {
      return new Node.Arr(List.of());
    }
    return new Node.Arr(
        Arrays.stream(cell.split("\\|", -1))
            .<Node>map(each -> new Node.Str(each.strip()))
            .toList());
  }
}
