package org.intercusp.web.api;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Interaction;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.rules.ExaminationWriter;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.sheet.Sheet;
import org.intercusp.treatment.sheet.SheetFault;
import org.intercusp.treatment.sheet.SheetMerge;
import org.intercusp.treatment.sheet.SheetReader;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Sheets of records (CSV) in. Rows are added to the treatment stored under their id, or make a new
 * one where the sheet describes it; a row that is refused is listed by line and column and the rest
 * goes on.
 */
@RestController
class SheetDoor {

  private static final String CSV = "text/csv";

  /** How often rows are put in again when somebody else wrote the treatment meanwhile. */
  private static final int TRIES = 5;

  private final SheetReader reader;
  private final SheetMerge merge;
  private final Intake intake;
  private final TreatmentArchive archive;
  private final Lookup lookup;
  private final Answers answers;
  private final CurrentCaller callers;
  private final ExaminationWriter json = new ExaminationWriter();

  SheetDoor(
      SheetReader reader,
      SheetMerge merge,
      Intake intake,
      TreatmentArchive archive,
      Lookup lookup,
      Answers answers,
      CurrentCaller callers) {
    this.reader = reader;
    this.merge = merge;
    this.intake = intake;
    this.archive = archive;
    this.lookup = lookup;
    this.answers = answers;
    this.callers = callers;
  }

  /** Figures and findings of the treatments of a sheet; nothing is kept. */
  @PostMapping(path = "/check", consumes = CSV, produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> check(@RequestBody byte[] csv, @RequestParam @Nullable String clinic) {
    must(Interaction.READ);
    return answer(csv, clinic, (key, before, treatment) -> new End("checked", 0));
  }

  /** Stores them, each treatment with all of its rows that could be taken. */
  @PostMapping(path = "/treatments", consumes = CSV, produces = MediaType.APPLICATION_JSON_VALUE)
  ResponseEntity<byte[]> submit(@RequestBody byte[] csv, @RequestParam @Nullable String clinic) {
    must(Interaction.READ);
    must(Interaction.UPDATE);
    return answer(csv, clinic, this::store);
  }

  /**
   * Unlike a file, a sheet is put together with what is stored, so the path does not say it all.
   */
  private void must(Interaction interaction) {
    if (!callers.caller().may("*", interaction)) {
      throw Problem.of(HttpStatus.FORBIDDEN, "A sheet reads and changes what is stored.");
    }
  }

  /** Puts a treatment where it belongs; null where somebody else was first, so that it is tried anew. */
  private interface Filing {
    @Nullable End file(TreatmentKey key, @Nullable StoredTreatment before, Treatment treatment);
  }

  /** How a treatment ended, and at which version; 0 where none is kept. */
  private record End(String word, int version) {}

  private @Nullable End store(
      TreatmentKey key, @Nullable StoredTreatment before, Treatment treatment) {
    Storing storing = intake.keep(key, before, treatment);
    if (storing instanceof Storing.Stored stored) {
      return new End(before == null ? "created" : "updated", stored.version().version());
    }
    if (storing instanceof Storing.Erased) {
      throw Problem.erased();
    }
    return storing instanceof Storing.Same same ? new End("same", same.version().version()) : null;
  }

  private ResponseEntity<byte[]> answer(byte[] csv, @Nullable String clinic, Filing filing) {
    Sheet sheet = reader.read(csv);
    List<SheetFault> faults = new ArrayList<>(sheet.faults());
    ObjectNode root = JsonMapper.shared().createObjectNode();
    ArrayNode treatments = root.putArray("treatments");
    int taken = 0;
    boolean created = false;
    for (String id : sheet.treatments()) {
      Filed filed = file(sheet, id, clinic, filing);
      faults.addAll(filed.merged().faults());
      Treatment treatment = filed.merged().treatment();
      if (treatment != null) {
        taken += filed.merged().taken();
        created |= filed.end().word().equals("created");
        treatments.add(shown(treatment, filed.end()));
      }
    }
    faults.sort(Comparator.comparingLong(SheetFault::line));
    if (taken == 0) {
      return refused(faults);
    }
    root.putObject("rows")
        .put("read", sheet.read())
        .put("taken", taken)
        .put("refused", sheet.read() - taken);
    root.set("refusals", json.rows(faults));
    return ResponseEntity.status(created ? HttpStatus.CREATED : HttpStatus.OK)
        .contentType(MediaType.APPLICATION_JSON)
        .body(answers.bytes(root));
  }

  private ResponseEntity<byte[]> refused(List<SheetFault> faults) {
    ObjectNode problem =
        answers.node(Problem.of(HttpStatus.BAD_REQUEST, "No row of the sheet could be taken."));
    problem.set("findings", json.rows(faults));
    return ResponseEntity.badRequest()
        .contentType(MediaType.APPLICATION_PROBLEM_JSON)
        .body(answers.bytes(problem));
  }

  private ObjectNode shown(Treatment treatment, End end) {
    ObjectNode node = json.write(intake.examine(treatment));
    node.put("outcome", end.word());
    if (end.version() > 0) {
      node.put("version", end.version());
    }
    return node;
  }

  private record Filed(SheetMerge.Merged merged, End end) {}

  private Filed file(Sheet sheet, String id, @Nullable String clinic, Filing filing) {
    for (int i = 0; i < TRIES; i++) {
      StoredTreatment before = stored(sheet, id, clinic);
      Treatment known = before == null ? null : intake.treatment(before);
      SheetMerge.Merged merged = merge.merge(sheet, id, known);
      Treatment treatment = merged.treatment();
      if (treatment == null) {
        return new Filed(merged, new End("refused", 0));
      }
      TreatmentKey key = Lookup.key(treatment.clinic().identifier(), id);
      if (before != null && !before.key().equals(key)) {
        throw new Intake.OtherTreatment();
      }
      End end = filing.file(key, before, treatment);
      if (end != null) {
        return new Filed(merged, end);
      }
    }
    throw Problem.of(
        HttpStatus.CONFLICT, "The treatment is being written by others: send the sheet again.");
  }

  /** What is stored of the treatment; a sheet that describes it says its clinic itself. */
  private @Nullable StoredTreatment stored(Sheet sheet, String id, @Nullable String clinic) {
    if (sheet.describes(id)) {
      Treatment own = merge.merge(sheet, id, null).treatment();
      if (own != null) {
        return archive.current(Lookup.key(own.clinic().identifier(), id)).orElse(null);
      }
    }
    boolean known = clinic != null || !archive.withId(id).isEmpty();
    return known ? archive.current(lookup.key(id, clinic)).orElse(null) : null;
  }
}
