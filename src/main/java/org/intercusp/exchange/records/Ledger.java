package org.intercusp.exchange.records;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.exchange.wire.Token;
import org.jspecify.annotations.Nullable;

/**
 * What a recipient was given of a treatment before, by whoever keeps a record of it.
 *
 * @param kept whether anybody keeps one; without, the server itself is searched for what went away
 * @param patient the server's Patient that it is all about; absent where that is not known
 */
public record Ledger(boolean kept, List<Line> lines, @Nullable Holder patient) {

  /** Nobody keeps a record. */
  public static final Ledger NONE = new Ledger(false, List.of(), null);

  public Ledger {
    lines = List.copyOf(lines);
  }

  /** What is known from earlier deliveries. */
  public static Ledger of(List<Line> lines) {
    return new Ledger(true, lines, null);
  }

  /** The same with the Patient that it is about. */
  public Ledger about(@Nullable Holder holder) {
    return new Ledger(kept, lines, holder);
  }

  /** The resource of this type that is found by the token. */
  public Optional<Line> line(String type, Token token) {
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
   * @param deletion what was decided on where the server's people deleted it
   */
  public record Line(
      String type,
      String parameter,
      String system,
      String value,
      String id,
      String sent,
      String stored,
      boolean withdrawn,
      Deletion deletion) {

    public Line {
      // Reports written before there was such a decision say nothing of it.
      deletion = deletion == null ? Deletion.UNDECIDED : deletion;
    }

    /** What it is found by on the server. */
    public Token token() {
      return new Token(parameter, system, value);
    }

    /** What the resource is known by. */
    public Name name() {
      return new Name(type, system, value);
    }
  }

  /** What a person decided on a resource that the server's people deleted. */
  public enum Deletion {
    /** Nobody decided anything: it is there, or a delivery is held until somebody does. */
    UNDECIDED(""),
    /** It is to be sent again. */
    AGAIN("again"),
    /** It stays deleted there, and the clinic keeps what it says. */
    LEFT("left");

    private final String code;

    Deletion(String code) {
      this.code = code;
    }

    /** As it is stored. */
    public String code() {
      return code;
    }

    /** Reads what {@link #code} writes; anything else is refused. */
    public static Deletion of(String code) {
      return Stream.of(values()).filter(one -> one.code.equals(code)).findFirst().orElseThrow();
    }
  }

  /** What a resource of ours is known by on every server. */
  public record Name(String type, String system, String value) {}

  /**
   * A Patient on the server.
   *
   * @param system of the identifier that it was delivered under
   * @param value of that identifier
   * @param id the id it has there
   * @param merged ids of the Patients that were merged into it, the first one delivered to first
   * @param otherSystem of an identifier it has beside ours since a merge; empty where it has none
   */
  public record Holder(
      String system,
      String value,
      String id,
      List<String> merged,
      String otherSystem,
      String otherValue) {

    public Holder {
      merged = List.copyOf(merged);
    }

    /** The identifier that it was delivered under. */
    public Token token() {
      return new Token(Token.IDENTIFIER, system, value);
    }
  }
}
