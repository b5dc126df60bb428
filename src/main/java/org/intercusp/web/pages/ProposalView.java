package org.intercusp.web.pages;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.proposal.Proposal;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Origin;
import org.intercusp.web.api.Intake;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A proposal in words.
 *
 * @param from who changed it, as people call the recipient
 * @param sides each place with what the file says now and what the recipient says
 * @param origins where it came from, a line each
 * @param asked what whoever accepts has to say
 * @param effect what accepting would do to findings and figures; absent where that is not known yet
 * @param standing what became of it; empty while it is open
 */
public record ProposalView(
    Proposal proposal,
    String from,
    String title,
    List<RecordChange> sides,
    List<String> origins,
    List<Asked> asked,
    @Nullable Comparison effect,
    String standing) {

  private static final JsonMapper JSON = new JsonMapper();

  /** A value that the recipient does not say. */
  public record Asked(String name, String label) {}

  static ProposalView of(
      Proposal one, String from, StoredTreatment current, Proposals proposals, Intake intake) {
    boolean open = one.state() == State.OPEN;
    List<RecordChange> sides = new ArrayList<>();
    List<Asked> asked = new ArrayList<>();
    for (Change change : one.content().changes()) {
      JsonNode ours = open ? Proposals.at(current, change.path()).orElse(null) : change.before();
      sides.addAll(RecordChange.at(change.path(), members(ours, change.after()), change.after()));
      sides.removeIf(side -> side.place().endsWith(" › id"));
      change.lacking().forEach(each -> asked.add(new Asked(each, label(each))));
    }
    Comparison effect =
        open && !sides.isEmpty()
            ? proposals
                .preview(one, current, JSON.createObjectNode())
                .map(preview -> Comparison.of(intake, current, preview))
                .orElse(null)
            : null;
    // What was deleted is named below, each with its address.
    List<String> origins =
        one.kind() == Kind.DELETED
            ? List.of()
            : one.content().origins().stream().map(ProposalView::line).toList();
    return new ProposalView(
        one, from, title(one, from), sides, origins, asked, effect, standing(one));
  }

  /** What is new is told member by member, as what is another is. */
  private static @Nullable JsonNode members(@Nullable JsonNode ours, @Nullable JsonNode after) {
    return isAbsent(ours) && after != null && after.isObject() ? JSON.createObjectNode() : ours;
  }

  private static String label(String member) {
    return Trade.title(member.replace("/", " ")) + ", mm";
  }

  private static String title(Proposal one, String from) {
    return switch (one.kind()) {
      case CHANGE -> from + (added(one) ? " has a new " : " has another ") + about(one);
      case MERGED -> from + " made two patients one";
      case UNREADABLE -> "What " + from + " has can no longer be read as this treatment";
      case DELETED -> from + " deleted what was delivered";
      case BEYOND -> from + " has more than this file has a place for";
    };
  }

  private static boolean added(Proposal one) {
    return one.content().changes().stream()
        .allMatch(change -> isAbsent(change.before()) && !isAbsent(change.after()));
  }

  private static boolean isAbsent(@Nullable JsonNode node) {
    return node == null || node.isNull() || node.isMissingNode();
  }

  private static String about(Proposal one) {
    return one.content().changes().stream()
        .map(change -> RecordChange.words(change.path().replaceFirst("^/patient/", "/")))
        .map(place -> place.substring(0, 1).toLowerCase(Locale.ROOT) + place.substring(1))
        .collect(Collectors.joining(", "));
  }

  /** What has no place in the record, or is not there any more, a line each. */
  public List<String> beyond() {
    return proposal.content().beyond().stream().map(this::line).toList();
  }

  private String line(Beyond one) {
    if (proposal.kind() == Kind.DELETED) {
      return Named.of(one, proposal.treatment().treatment());
    }
    return one.value().isEmpty() ? one.path() : one.path() + ": " + one.value();
  }

  private static String line(Origin origin) {
    StringBuilder line = new StringBuilder(origin.address());
    if (!origin.version().isEmpty()) {
      line.append(", version ").append(origin.version());
    }
    if (origin.changedAt() != null) {
      line.append(", changed ").append(DeliveryView.time(origin.changedAt()));
    }
    if (!origin.by().isEmpty()) {
      line.append(", by ").append(origin.by());
    }
    return line.toString();
  }

  private static String standing(Proposal one) {
    String when = one.decidedAt() == null ? "" : " " + DeliveryView.time(one.decidedAt());
    String by = one.decidedBy().isEmpty() ? "" : " by " + one.decidedBy();
    boolean deleted = one.kind() == Kind.DELETED;
    return switch (one.state()) {
      case OPEN -> "";
      case ACCEPTED ->
          one.made() == null
              ? (deleted ? "Left deleted" : "Seen") + when + by
              : "Accepted" + when + by + " as version " + one.made();
      case DECLINED -> (deleted ? "To be sent again" : "Declined") + when + by;
      case OVERTAKEN -> "Overtaken" + when + ": " + one.reason();
    };
  }

  public boolean open() {
    return proposal.state() == State.OPEN;
  }

  /** What accepting it is called. */
  public String yes() {
    return switch (proposal.kind()) {
      case CHANGE -> "Accept";
      case DELETED -> "Leave it deleted";
      default -> "Seen";
    };
  }

  /** What declining it is called; empty where there is only something to have seen. */
  public String no() {
    return switch (proposal.kind()) {
      case CHANGE -> "Decline";
      case DELETED -> "Send it again";
      default -> "";
    };
  }

  /** What the two sides are called on a form. */
  public String field(Asked one) {
    return "given." + proposal.number() + "." + one.name();
  }
}
