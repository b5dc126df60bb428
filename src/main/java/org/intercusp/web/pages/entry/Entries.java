package org.intercusp.web.pages.entry;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import tools.jackson.databind.node.ObjectNode;

/**
 * Entries a clinician makes on a form: tried on the stored treatment, computed, and saved as its
 * next version. A new sign of harm is queued for every recipient in the same transaction.
 */
public final class Entries {

  private static final Pattern NUMBERED = Pattern.compile("(.*?)(\\d{1,6})");

  private final Examiner examiner;
  private final StoringAndQueueing storing;
  private final Clock clock;
  private final TreatmentWriter writer = new TreatmentWriter();

  public Entries(Examiner examiner, StoringAndQueueing storing, Clock clock) {
    this.examiner = examiner;
    this.storing = storing;
    this.clock = clock;
  }

  /** What became of an entry. */
  sealed interface Saving {

    /** It stands in the record now; deliveries were queued only for a sign of harm. */
    record Saved(StoredTreatment version) implements Saving {}

    /** Nothing was saved, for these reasons by the name of the field. */
    record Faulty(Map<String, String> faults) implements Saving {}

    /** Nothing was saved: the record has become another version meanwhile. */
    record Overtaken() implements Saving {}
  }

  LocalDate today() {
    return LocalDate.now(clock);
  }

  /** The form of a list. */
  Sheet sheet(String list, Treatment treatment) {
    return list.equals("bites") ? BiteSheet.of(today()) : ReviewSheet.of(treatment, today());
  }

  /** What a fresh form holds. */
  Typed proposed(Sheet sheet, Treatment treatment) {
    Map<String, String> proposals = new TreeMap<>();
    proposals.put(sheet.date(), today().toString());
    if (sheet.list().equals("bites")) {
      List<String> ids = treatment.bites().stream().map(Bite::id).toList();
      proposals.put("id", nextId(ids, "bite-"));
    } else {
      List<Review> reviews = treatment.reviews();
      proposals.put("id", nextId(reviews.stream().map(Review::id).toList(), "review-"));
      proposals.put("seenBy", treatment.clinician().family());
      proposals.put("kind", "planned");
      if (!reviews.isEmpty()) {
        proposals.put("stageId", reviews.get(reviews.size() - 1).stageId());
      } else if (!treatment.stages().isEmpty()) {
        proposals.put("stageId", treatment.stages().get(0).id());
      }
    }
    return Typed.proposed(proposals);
  }

  /** The id that follows the last one, as the record numbers them. */
  static String nextId(List<String> ids, String stem) {
    Set<String> taken = new HashSet<>(ids);
    String last = ids.isEmpty() ? stem + "0" : ids.get(ids.size() - 1);
    Matcher numbered = NUMBERED.matcher(last);
    boolean counts = numbered.matches();
    String before = counts ? numbered.group(1) : stem;
    String digits = counts ? numbered.group(2) : "0";
    return Stream.iterate(Integer.parseInt(digits) + 1, n -> n + 1)
        .map(number -> before + padded(number, digits.length()))
        .filter(id -> !taken.contains(id))
        .findFirst()
        .orElseThrow();
  }

  /** With zeros before it, where the last one was as wide. */
  private static String padded(int number, int width) {
    String digits = Integer.toString(number);
    return "0".repeat(Math.max(0, width - digits.length())) + digits;
  }

  /** What follows from what has been typed so far. */
  LiveView live(Sheet sheet, StoredTreatment stored, Treatment before, Typed typed) {
    ObjectNode file = Placed.tree(stored.content());
    EntryText text = text(sheet, before, typed);
    Trial trial = Trial.of(file, sheet, text);
    Trial completed = trial.treatment() == null ? trial.completed(file, sheet, text) : trial;
    return new Live(examinations()).of(sheet, before, trial, completed, open(sheet, trial));
  }

  private Live.Examinations examinations() {
    return new Live.Examinations() {
      @Override
      public Examination of(Treatment treatment, LocalDate on) {
        return examiner.examine(treatment, on);
      }

      @Override
      public LocalDate day(Treatment treatment) {
        return treatment.dayOr(today());
      }
    };
  }

  private EntryText text(Sheet sheet, Treatment before, Typed typed) {
    return EntryText.of(sheet, typed.filled(sheet), today(), before.asOf());
  }

  private static List<String> open(Sheet sheet, Trial trial) {
    Map<String, String> labels =
        sheet.fields().collect(Collectors.toMap(Field::path, Field::label, (a, b) -> a));
    List<String> open = new ArrayList<>();
    for (String name : trial.faults().keySet()) {
      String label = labels.get(name);
      open.add(label == null ? inGroup(sheet, name) : label);
    }
    return open.stream().distinct().toList();
  }

  private static String inGroup(Sheet sheet, String name) {
    String list = name.split("/", -1)[0];
    return sheet.groups().stream()
        .filter(group -> group.list().equals(list))
        .map(Sheet.Group::title)
        .findFirst()
        .orElse("the record");
  }

  /** Saves an entry behind the version it was typed for. */
  Saving save(Sheet sheet, StoredTreatment stored, Treatment before, int expected, Typed typed) {
    if (stored.version() != expected) {
      return new Saving.Overtaken();
    }
    EntryText text = text(sheet, before, typed);
    Trial trial = Trial.of(Placed.tree(stored.content()), sheet, text);
    Treatment after = trial.treatment();
    if (after == null) {
      return new Saving.Faulty(trial.faults());
    }
    Storing end = storing.replace(stored.key(), expected, writer.write(after), List.of()).storing();
    return end instanceof Storing.Stored saved
        ? new Saving.Saved(saved.version())
        : new Saving.Overtaken();
  }
}
