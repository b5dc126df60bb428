package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.treatment.ReadLine;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.sheet.Sheet;
import org.intercusp.treatment.sheet.SheetFault;
import org.intercusp.treatment.sheet.SheetMerge;
import org.intercusp.treatment.sheet.SheetReader;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Option;

/** Reads sheets of records, put into the treatments they belong to. */
@Component
final class Sheets {

  /** How a command is told of sheets. */
  static final class Told {

    @Option(names = "--csv", description = "standard input is a sheet of records (CSV)")
    boolean csv;

    @Option(
        names = "--into",
        paramLabel = "FILE",
        description = "treatment files that the records of a sheet (CSV) are added to")
    @Nullable Input into;

    /** Whether there is a sheet among the inputs for what is to be added to. */
    boolean fits(List<Input> files) {
      return into == null || files.stream().anyMatch(this::isSheet);
    }

    /** Whether an input is a sheet: named so, or said so of standard input. */
    boolean isSheet(Input file) {
      return file.name().equals("-") ? csv : file.name().toLowerCase(Locale.ROOT).endsWith(".csv");
    }
  }

  /**
   * What a sheet came to.
   *
   * @param read rows that held anything
   * @param taken rows that are in the treatments
   */
  record Read(List<Treatment> treatments, int read, int taken, List<SheetFault> faults) {}

  private final TreatmentReader reader;
  private final SheetReader sheets;
  private final SheetMerge merge;
  private final Console console;

  Sheets(TreatmentReader reader, SheetReader sheets, SheetMerge merge, Console console) {
    this.console = console;
    this.reader = reader;
    this.sheets = sheets;
    this.merge = merge;
  }

  /**
   * Reads a sheet.
   *
   * @throws IOException where a file cannot be opened, or holds a treatment that cannot be read
   */
  Read read(Input file, @Nullable Input into) throws IOException {
    Sheet sheet = sheets.read(file.read(SheetReader.MAX_BYTES));
    Map<String, Treatment> known = into == null ? Map.of() : known(into, sheet);
    List<Treatment> treatments = new ArrayList<>();
    List<SheetFault> faults = new ArrayList<>(sheet.faults());
    int taken = 0;
    for (String id : sheet.treatments()) {
      SheetMerge.Merged merged = merge.merge(sheet, id, known.get(id));
      Treatment treatment = merged.treatment();
      if (treatment != null) {
        treatments.add(treatment);
      }
      taken += merged.taken();
      faults.addAll(merged.faults());
    }
    faults.sort((a, b) -> Long.compare(a.line(), b.line()));
    return new Read(treatments, sheet.read(), taken, faults);
  }

  /** The one treatment of a sheet whose rows were all taken; else why not, on standard error. */
  Optional<Treatment> one(Input file, Told told) {
    try {
      Read read = read(file, told.into);
      if (read.faults().isEmpty() && read.treatments().size() == 1) {
        return Optional.of(read.treatments().get(0));
      }
      console.say(shown(file.toString(), read));
      if (read.faults().isEmpty()) {
        console.say(
            "A Bundle is of one treatment; this sheet has " + read.treatments().size() + ".");
      }
    } catch (IOException | UncheckedIOException e) {
      console.say(unopened(file, told, e));
    }
    return Optional.empty();
  }

  private Map<String, Treatment> known(Input into, Sheet sheet) throws IOException {
    Map<String, Treatment> known = new HashMap<>();
    try (InputStream bytes = into.open();
        Stream<ReadLine> lines = reader.readFile(bytes)) {
      for (ReadLine line : (Iterable<ReadLine>) lines::iterator) {
        if (!(line.result() instanceof ReadResult.Accepted accepted)) {
          throw new IOException("line " + line.line() + " is not a treatment file");
        }
        Treatment treatment = accepted.treatment();
        if (sheet.treatments().contains(treatment.id())
            && known.put(treatment.id(), treatment) != null) {
          throw new IOException("two treatments have the id " + treatment.id());
        }
      }
    }
    return known;
  }

  /** Whether what was told of sheets fits what is read; else why not, on standard error. */
  boolean fits(Told told, List<Input> files) {
    if (!told.fits(files)) {
      console.say(
          "--into is for records of a sheet: a file named .csv, or --csv for standard input");
      return false;
    }
    return true;
  }

  /** Why nothing could be read at all. */
  static String unopened(Input file, Told told, Exception why) {
    String into = told.into == null ? "" : ", or " + told.into + " as treatment files";
    return file + " cannot be read" + into + ": " + Words.of(why);
  }

  /** What was refused, in lines for a person. */
  static String shown(String file, Read read) {
    StringBuilder out = new StringBuilder();
    out.append(file).append(": ").append(read.read()).append(" rows read, ");
    out.append(read.taken()).append(" taken, ").append(read.read() - read.taken());
    out.append(" refused");
    for (SheetFault fault : read.faults()) {
      out.append("\n  ").append(fault.place()).append(": ").append(fault.finding().code());
      out.append("\n    ").append(fault.finding().message());
      out.append("\n    What to do: ").append(fault.finding().remedy());
    }
    return out.toString();
  }
}
