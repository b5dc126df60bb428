package org.intercusp.treatment.sheet;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.intercusp.treatment.shape.Node;
import org.intercusp.treatment.shape.Words;

/**
 * Reads a sheet of records: comma, semicolon or tab between cells (the header shows which), RFC
 * 4180 quoting, UTF-8 with or without a byte order mark. The first row names the columns, see
 * {@link SheetColumns}; every other row is one record. Decimals have a point; in a sheet parted by
 * semicolons a comma too. An empty cell is an absent member, {@code none} an empty list.
 *
 * <p>A header that is not understood refuses the whole sheet, since nothing below it can be placed;
 * anything else refuses its row alone.
 */
public final class SheetReader {

  /** Bytes of one sheet; as a treatment file, common practice, no source. */
  public static final int MAX_BYTES = 8 << 20;

  /** Rows and columns of one sheet; common practice, no source. */
  private static final int MAX_ROWS = 20_000;

  private static final int MAX_COLUMNS = 500;

  /** How a spreadsheet is told what divides the cells, in a line before the header. */
  private static final Pattern SAID_DELIMITER =
      Pattern.compile("sep=([,;\t])\\r?\\n", Pattern.CASE_INSENSITIVE);

  private final SheetColumns columns;

  public SheetReader(SheetColumns columns) {
    this.columns = columns;
  }

  /** Reads one sheet; never throws for what is in it. */
  public Sheet read(byte[] utf8) {
    if (utf8.length > MAX_BYTES) {
      return refused(SheetFaults.tooLarge(1, "more than " + MAX_BYTES + " bytes"));
    }
    String text;
    try {
      text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString();
    } catch (CharacterCodingException e) {
      return refused(SheetFaults.notSheet(1, "a byte that is not UTF-8"));
    }
    String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
    Matcher said = SAID_DELIMITER.matcher(plain);
    return said.lookingAt()
        ? parsed(plain.substring(said.end()), said.group(1).charAt(0), 2)
        : parsed(plain, delimiter(plain), 1);
  }

  private static Sheet refused(SheetFault fault) {
    return new Sheet(0, List.of(), List.of(fault));
  }

  /** What follows the line that says the delimiter, or the whole of a sheet without one. */
  private Sheet parsed(String text, char delimiter, int first) {
    DecimalSign sign = delimiter == ';' ? DecimalSign.COMMA : DecimalSign.POINT;
    CSVFormat format =
        CSVFormat.RFC4180.builder().setDelimiter(delimiter).setIgnoreEmptyLines(false).get();
    long line = first;
    try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
      Gathering gathering = new Gathering(columns, sign);
      for (CSVRecord row : parser) {
        if (gathering.read > MAX_ROWS || row.size() > MAX_COLUMNS) {
          return refused(SheetFaults.tooLarge(line, "too many rows or columns"));
        }
        if (!gathering.add(line, row)) {
          break;
        }
        line = parser.getCurrentLineNumber() + first;
      }
      return gathering.end();
    } catch (IOException | UncheckedIOException e) {
      return refused(SheetFaults.notSheet(line, "a quoted cell that is not closed as it should"));
    }
  }

  /** The sign that stands most often in the first line, outside quotes. */
  private static char delimiter(String text) {
    int[] count = new int[3];
    boolean quoted = false;
    for (int i = 0; i < text.length() && (quoted || text.charAt(i) != '\n'); i++) {
      char c = text.charAt(i);
      quoted ^= c == '"';
      if (!quoted && ",;\t".indexOf(c) >= 0) {
        count[",;\t".indexOf(c)]++;
      }
    }
    if (count[1] > count[0] && count[1] >= count[2]) {
      return ';';
    }
    return count[2] > count[0] ? '\t' : ',';
  }

  /** Rows as they come in. */
  private static final class Gathering {

    private final SheetColumns columns;
    private final DecimalSign sign;
    private final List<SheetRow> rows = new ArrayList<>();
    private final List<SheetFault> faults = new ArrayList<>();
    private List<String> header = List.of();
    private int read;

    Gathering(SheetColumns columns, DecimalSign sign) {
      this.columns = columns;
      this.sign = sign;
    }

    /** Takes the next row; false when nothing below it can be read. */
    boolean add(long line, CSVRecord row) {
      List<String> cells = row.stream().map(String::strip).toList();
      if (cells.stream().allMatch(String::isEmpty)) {
        return true;
      }
      if (header.isEmpty()) {
        header = named(cells);
        faults.addAll(new SheetHeader(columns).faults(line, header));
        return faults.isEmpty();
      }
      read++;
      record(line, cells);
      return true;
    }

    /** Spreadsheets keep columns that were emptied; what stands in one is told by its row. */
    private static List<String> named(List<String> cells) {
      int end = cells.size();
      while (cells.get(end - 1).isEmpty()) {
        end--;
      }
      return cells.subList(0, end);
    }

    private void record(long line, List<String> cells) {
      int before = faults.size();
      Map<String, Integer> places = new LinkedHashMap<>();
      for (int i = 0; i < cells.size(); i++) {
        if (cells.get(i).isEmpty()) {
          continue;
        }
        if (i >= header.size()) {
          faults.add(SheetFaults.beyond(line, i + 1, cells.get(i)));
        } else {
          places.put(header.get(i), i + 1);
        }
      }
      String word = cell(cells, places, SheetColumns.RECORD);
      Optional<SheetKind> kind = SheetKind.of(word);
      if (kind.isEmpty()) {
        faults.add(SheetFaults.noKind(line, header.indexOf(SheetColumns.RECORD) + 1, word));
      }
      String treatment = cell(cells, places, SheetColumns.TREATMENT);
      if (!Words.isId(treatment)) {
        int column = header.indexOf(SheetColumns.TREATMENT) + 1;
        faults.add(SheetFaults.noTreatment(line, column, treatment));
      }
      if (kind.isPresent() && faults.size() == before) {
        content(line, kind.get(), treatment, cells, places);
      }
    }

    private void content(
        long line,
        SheetKind kind,
        String treatment,
        List<String> cells,
        Map<String, Integer> places) {
      int before = faults.size();
      Branch root = new Branch();
      places.forEach(
          (name, column) -> {
            if (name.equals(SheetColumns.RECORD) || name.equals(SheetColumns.TREATMENT)) {
              return;
            }
            String cell = cells.get(column - 1);
            columns
                .kind(kind, name)
                .ifPresentOrElse(
                    type -> root.put(name, type.read(cell, sign)),
                    () -> faults.add(SheetFaults.notOfKind(line, column, name, kind, cell)));
          });
      if (faults.size() == before) {
        Node.Obj content = root.object();
        String id = content.member("id") instanceof Node.Str text ? text.text() : "";
        rows.add(new SheetRow(line, kind, treatment, id, content, places));
      }
    }

    private static String cell(List<String> cells, Map<String, Integer> places, String name) {
      Integer column = places.get(name);
      return column == null ? "" : cells.get(column - 1);
    }

    Sheet end() {
      if (header.isEmpty()) {
        faults.add(SheetFaults.notSheet(1, "there is nothing in it"));
      }
      return new Sheet(read, rows, faults);
    }
  }
}
