package org.intercusp.exchange;

import java.util.List;
import java.util.Optional;

/**
 * What a recipient was given of a treatment before, by whoever keeps a record of it.
 *
 * @param kept whether anybody keeps one; without, the server itself is searched for what went away
 */
public record Ledger(boolean kept, List<Line> lines) {

  /** Nobody keeps a record. */
  public static final Ledger NONE = new Ledger(false, List.of());

  public Ledger {
    lines = List.copyOf(lines);
  }

  /** What is known from earlier deliveries. */
  public static Ledger of(List<Line> lines) {
    return new Ledger(true, lines);
  }

  Optional<Line> line(String type, Token token) {
    return lines.stream()
        .filter(line -> line.type().equals(type) && line.token().equals(token))
        .findFirst();
  }

  /**
   * One resource that was delivered.
   *
   * @param parameter what it is searched by, {@code identifier} or {@code _tag}
   * @param id the id it has on the server
   * @param sent digest of what was sent
   * @param stored digest of what the server then had
   * @param withdrawn whether it has been marked as entered in error
   */
  public record Line(
      String type,
      String parameter,
      String system,
      String value,
      String id,
      String sent,
      String stored,
      boolean withdrawn) {

    Token token() {
      return new Token(parameter, system, value);
    }
  }
}
