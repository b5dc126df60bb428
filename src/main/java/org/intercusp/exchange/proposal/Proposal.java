package org.intercusp.exchange.proposal;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Origin;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Something a recipient's people changed in what was delivered to them, for a person at the clinic
 * to decide on.
 *
 * @param number counted up within the treatment
 * @param subject what it is about at the recipient
 * @param standing whether the recipient still said so when it was last looked at
 * @param base the version last delivered, which it was held against
 * @param decidedBy empty while it is open
 * @param made the version that accepting it made
 * @param reason why it was overtaken, or what could not be read
 */
public record Proposal(
    TreatmentKey treatment,
    int number,
    String recipient,
    Kind kind,
    State state,
    String subject,
    boolean standing,
    int base,
    Instant foundAt,
    @Nullable Instant decidedAt,
    String decidedBy,
    @Nullable Integer made,
    String reason,
    Content content) {

  /** What kind of thing was found. */
  public enum Kind {
    /** Another content of the treatment file. */
    CHANGE,
    /** Two patients became one; there is nothing to change in the file. */
    MERGED,
    /** What the recipient holds can't be read as this treatment any more. */
    UNREADABLE,
    /** Content that has no place in the file: only listed. */
    BEYOND,
    /** Resources of ours were deleted: to be left so where accepted, sent again where declined. */
    DELETED;

    /** As it is stored and answered. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }

    static Kind of(String code) {
      return Stream.of(values()).filter(one -> one.code().equals(code)).findFirst().orElseThrow();
    }
  }

  /** What became of it. */
  public enum State {
    OPEN,
    ACCEPTED,
    DECLINED,
    /** It no longer is so, or something newer took its place. */
    OVERTAKEN;

    /** As it is stored and answered. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }

    static State of(String code) {
      return Stream.of(values()).filter(one -> one.code().equals(code)).findFirst().orElseThrow();
    }
  }

  /** What it says and where that came from. */
  public record Content(List<Change> changes, List<Beyond> beyond, List<Origin> origins) {
    public Content {
      changes = List.copyOf(changes);
      beyond = List.copyOf(beyond);
      origins = List.copyOf(origins);
    }
  }

  /**
   * One place of the treatment file.
   *
   * @param path members from the top, entries of lists by their id: {@code /reviews/R1/overjet}
   * @param before what was delivered; absent where it was not there
   * @param after what the recipient has; absent where it is not there any more
   * @param keys what it is known by, so that the same is proposed once
   * @param lacking members, from this place on, that the file asks for and the recipient does not
   *     say: whoever accepts has to
   */
  public record Change(
      String path,
      @Nullable JsonNode before,
      @Nullable JsonNode after,
      List<String> keys,
      List<String> lacking) {
    public Change {
      keys = List.copyOf(keys);
      lacking = List.copyOf(lacking);
    }
  }

  /** What all its changes are known by. */
  List<String> keys() {
    return content.changes().stream().flatMap(one -> one.keys().stream()).toList();
  }
}
