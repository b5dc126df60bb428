package org.intercusp.registry.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Where one load stands; its journal, written together with what it loaded.
 *
 * @param source what is loaded, recognised when it comes again: no name of a file stands in it
 * @param lines lines behind it
 * @param bytes bytes behind it
 * @param reason why it failed; lines up to {@code lines} are loaded all the same
 */
public record LoadStatus(
    String id,
    String source,
    State state,
    LoadCounts counts,
    long lines,
    long bytes,
    Instant startedAt,
    @Nullable Instant endedAt,
    @Nullable String reason) {

  /** More was refused than is kept of one submission. */
  static final String TOO_MANY_REFUSED = "too-many-refused";

  /** It could not be loaded, and would not be another time. */
  static final String UNLOADABLE = "unloadable";

  private static final JsonMapper JSON = new JsonMapper();

  /** How far it is. */
  public enum State {
    WAITING,
    RUNNING,
    DONE,
    FAILED
  }

  /** Whether nothing more will happen to it. */
  public boolean ended() {
    return state == State.DONE || state == State.FAILED;
  }

  LoadStatus at(State now, @Nullable Instant end) {
    return new LoadStatus(id, source, now, counts, lines, bytes, startedAt, end, null);
  }

  LoadStatus failed(String why, Instant end) {
    return new LoadStatus(id, source, State.FAILED, counts, lines, bytes, startedAt, end, why);
  }

  static LoadStatus begun(String id, String source, State state, Instant now) {
    return new LoadStatus(id, source, state, LoadCounts.NONE, 0, 0, now, null, null);
  }

  LoadStatus after(LoadCounts more, long line, long offset) {
    return new LoadStatus(
        id, source, State.RUNNING, counts.plus(more), line, offset, startedAt, null, null);
  }

  static Path file(Path loads, String id) {
    return loads.resolve(id + ".json");
  }

  /** As JSON, which is also what a client is told. */
  public ObjectNode json() {
    ObjectNode node = JSON.createObjectNode();
    node.put("id", id).put("source", source);
    node.put("state", state.name().toLowerCase(Locale.ROOT));
    node.putObject("counts")
        .put("read", counts.read())
        .put("new", counts.fresh())
        .put("same", counts.same())
        .put("replaced", counts.replaced())
        .put("refused", counts.refused())
        .put("withdrawals", counts.withdrawn());
    node.put("lines", lines).put("bytes", bytes).put("startedAt", startedAt.toString());
    if (endedAt != null) {
      node.put("endedAt", endedAt.toString());
    }
    if (reason != null) {
      node.put("reason", reason);
    }
    return node;
  }

  String text() {
    return JSON.writeValueAsString(json()) + "\n";
  }

  static Optional<LoadStatus> read(Path file) throws IOException {
    if (Files.notExists(file)) {
      return Optional.empty();
    }
    JsonNode node = JSON.readTree(Files.readString(file));
    JsonNode counts = node.get("counts");
    JsonNode end = node.get("endedAt");
    JsonNode why = node.get("reason");
    return Optional.of(
        new LoadStatus(
            node.get("id").asString(),
            node.get("source").asString(),
            State.valueOf(node.get("state").asString().toUpperCase(Locale.ROOT)),
            new LoadCounts(
                counts.get("read").asLong(),
                counts.get("new").asLong(),
                counts.get("same").asLong(),
                counts.get("replaced").asLong(),
                counts.get("refused").asLong(),
                counts.get("withdrawals").asLong()),
            node.get("lines").asLong(),
            node.get("bytes").asLong(),
            Instant.parse(node.get("startedAt").asString()),
            end == null ? null : Instant.parse(end.asString()),
            why == null ? null : why.asString()));
  }
}
