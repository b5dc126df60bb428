package org.intercusp.web.pages;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.Judged;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.web.api.Intake;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * Accepts findings and withdraws acceptances. Either makes a new version of the treatment, in place
 * of the one the clinician looked at and of no other.
 */
@Component
class Acceptances {

  private final Intake intake;
  private final TreatmentWriter writer;
  private final Clock clock;

  Acceptances(Intake intake, TreatmentWriter writer, Clock clock) {
    this.intake = intake;
    this.writer = writer;
    this.clock = clock;
  }

  /** What became of it. */
  sealed interface Outcome {

    /** A new version holds it. */
    record Done() implements Outcome {}

    /** Another version was stored meanwhile; nothing was written. */
    record Stale() implements Outcome {}

    /** Nothing was written, for this reason. */
    record Refused(String why) implements Outcome {}

    /** Nothing was written: what was typed can't stand in a record. */
    record Mistyped(List<Field> fields) implements Outcome {}
  }

  /** What is wrong with a field of the form. */
  record Field(String name, String words) {}

  Outcome accept(StoredTreatment current, AcceptanceForm form) {
    if (current.version() != form.version()) {
      return new Outcome.Stale();
    }
    List<Field> empty = empty(form);
    if (!empty.isEmpty()) {
      return new Outcome.Mistyped(empty);
    }
    Treatment treatment = today(intake.treatment(current));
    Judged judged = find(treatment, form).orElse(null);
    if (judged == null) {
      return new Outcome.Refused("This finding is no longer there.");
    }
    String why = why(judged);
    if (!why.isEmpty()) {
      return new Outcome.Refused(why);
    }
    List<Acceptance> all = new ArrayList<>(treatment.acceptances());
    all.add(acceptance(judged.finding(), form));
    Treatment next = with(treatment, treatment.asOf(), all);
    return replace(current, next);
  }

  private static String why(Judged judged) {
    Severity severity = judged.finding().severity();
    if (!RuleCatalogue.acceptable(judged.finding().code()) || severity == Severity.REFUSED) {
      return "This finding can't be accepted for any reason: the record must be corrected.";
    }
    if (severity != Severity.ERROR && severity != Severity.URGENT) {
      return "Only errors and signs of harm are accepted; this one holds nothing back.";
    }
    return judged.accepted() ? "This finding is accepted already." : "";
  }

  private Acceptance acceptance(Finding finding, AcceptanceForm form) {
    return new Acceptance(
        finding.code(),
        finding.subject(),
        finding.values(),
        form.reason(),
        form.by(),
        LocalDate.now(clock));
  }

  private Optional<Judged> find(Treatment treatment, AcceptanceForm form) {
    return intake.examine(treatment).findings().stream()
        .filter(judged -> judged.finding().code().equals(form.finding()))
        .filter(judged -> judged.finding().subject().equals(form.subject()))
        .filter(judged -> judged.finding().pointer().text().equals(form.pointer()))
        .findFirst();
  }

  /**
   * Takes an acceptance out.
   *
   * @param place of the acceptance in the version the clinician looked at
   */
  Outcome withdraw(StoredTreatment current, int version, int place) {
    if (current.version() != version) {
      return new Outcome.Stale();
    }
    Treatment treatment = intake.treatment(current);
    if (place < 0 || place >= treatment.acceptances().size()) {
      return new Outcome.Refused("There is no such acceptance.");
    }
    List<Acceptance> rest = new ArrayList<>(treatment.acceptances());
    rest.remove(place);
    return replace(current, with(treatment, treatment.asOf(), rest));
  }

  private Outcome replace(StoredTreatment current, Treatment next) {
    Intake.Taken taken =
        intake.replace(current.key(), current.version(), writer.write(next), List.of());
    if (taken instanceof Intake.Taken.Unreadable unreadable) {
      return new Outcome.Mistyped(unreadable.faults().stream().map(Acceptances::field).toList());
    }
    Storing storing = ((Intake.Taken.Filed) taken).storing();
    return storing instanceof Storing.Stored ? new Outcome.Done() : new Outcome.Stale();
  }

  /** A record that speaks of an earlier day speaks of today once something is done in it. */
  private Treatment today(Treatment treatment) {
    LocalDate today = LocalDate.now(clock);
    LocalDate asOf = treatment.asOf();
    return asOf != null && asOf.isBefore(today)
        ? with(treatment, today, treatment.acceptances())
        : treatment;
  }

  private static List<Field> empty(AcceptanceForm form) {
    List<Field> empty = new ArrayList<>();
    if (form.reason().isEmpty()) {
      empty.add(new Field("reason", "Say why this patient can be treated so."));
    }
    if (form.family().isEmpty()) {
      empty.add(new Field("family", "Say who accepts it."));
    }
    if (form.value().isEmpty()) {
      empty.add(new Field("value", "Give the number of the clinician."));
    }
    if (form.system().isEmpty()) {
      empty.add(new Field("system", "Say who issued the number."));
    }
    return empty;
  }

  /** The field a fault of the reader is about. */
  private static Field field(Finding fault) {
    String pointer = fault.pointer().text();
    String name = pointer.substring(pointer.lastIndexOf('/') + 1);
    return switch (name) {
      case "reason" -> new Field(name, "The reason is a text of at most 500 characters.");
      case "family" -> new Field(name, "The name is a text of at most 500 characters.");
      case "value" -> new Field(name, "The number is a text of at most 500 characters.");
      case "system" ->
          new Field(name, "The issuer is a web address or a URN, such as urn:oid:1.2.");
      default -> new Field("", fault.message());
    };
  }

  private static Treatment with(
      Treatment treatment, @Nullable LocalDate asOf, List<Acceptance> acceptances) {
    return new Treatment(
        treatment.id(),
        asOf,
        treatment.clinic(),
        treatment.clinician(),
        treatment.patient(),
        treatment.referrer(),
        treatment.laboratory(),
        treatment.diagnosis(),
        treatment.bites(),
        treatment.appliances(),
        treatment.stages(),
        treatment.reviews(),
        treatment.films(),
        treatment.models(),
        treatment.outcomes(),
        treatment.completion(),
        acceptances);
  }
}
