package org.intercusp.treatment.sheet;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Sheets of records; their form is that of RFC 4180, their values those of the treatment file. */
class SheetTest {

  private final SheetReader reader = new SheetReader(new SheetColumns());
  private final SheetMerge merge = new SheetMerge(new TreatmentReader(), new TreatmentWriter());

  @ParameterizedTest
  @ValueSource(chars = {',', ';', '\t'})
  void aSheetOfAllRowsIsTheTreatment(char delimiter) {
    new TreatmentGenerator()
        .treatments(150, 41)
        .map(SheetTest::withoutImaging)
        .forEach(
            whole -> {
              String sheet = new SheetWriting().add(whole, SheetKind.values()).text(delimiter);
              SheetMerge.Merged merged = merged(sheet, whole.id(), null);
              assertThat(merged.faults()).isEmpty();
              assertThat(merged.treatment()).isEqualTo(whole);
            });
  }

  @Test
  void rowsAreAddedWhereTheirDateBelongsAndSentAgainChangeNothing() throws IOException {
    Treatment whole = sample();
    Treatment early = withReviews(whole, whole.reviews().subList(0, 2));
    String sheet = new SheetWriting().add(whole, SheetKind.BITE, SheetKind.REVIEW).text(',');
    Treatment once = merged(sheet, whole.id(), early).treatment();
    assertThat(once).isEqualTo(whole);
    assertThat(merged(sheet, whole.id(), once).treatment()).isEqualTo(whole);
    Treatment gap = withReviews(whole, List.of(whole.reviews().get(0), whole.reviews().get(2)));
    assertThat(merged(sheet, whole.id(), gap).treatment()).isEqualTo(whole);
  }

  @Test
  void aDecimalKeepsItsDigitsAndHasACommaOnlyBetweenSemicolons() throws IOException {
    Treatment known = sample();
    String header = "record;treatment;id;overjetHabitual";
    Sheet comma = read(header + "\nbite;" + known.id() + ";b9;3,50\n");
    assertThat(comma.rows().get(0).content().toString()).contains("text=3.50");
    Sheet point = read(header.replace(';', ',') + "\nbite," + known.id() + ",b9,\"3,50\"\n");
    assertThat(point.rows().get(0).content().toString()).contains("Str[text=3,50]");
  }

  @Test
  void aRefusedRowLeavesTheOthersAndNamesItsCell() throws IOException {
    Treatment whole = sample();
    String good = new SheetWriting().add(whole, SheetKind.REVIEW).text(',');
    List<String> header = List.of(good.lines().findFirst().orElseThrow().split(","));
    int overjet = header.indexOf("overjet");
    String[] lines = good.split("\n");
    String[] cells = lines[2].split(",", -1);
    cells[overjet] = "75";
    lines[2] = String.join(",", cells);
    SheetMerge.Merged merged =
        merged(String.join("\n", lines), whole.id(), withReviews(whole, List.of()));
    assertThat(merged.taken()).isEqualTo(whole.reviews().size() - 1);
    assertThat(merged.treatment()).isNotNull();
    SheetFault fault = merged.faults().get(0);
    assertThat(merged.faults()).hasSize(1);
    assertThat(fault.line()).isEqualTo(3);
    assertThat(fault.column()).isEqualTo(overjet + 1);
    assertThat(fault.name()).isEqualTo("overjet");
    assertThat(fault.finding().code()).isEqualTo("out-of-range");
    assertThat(fault.place()).isEqualTo("line 3, column " + (overjet + 1) + " (overjet)");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '~',
      value = {
        "bite,T,x,3~2~2~treatment~unknown-reference",
        "bit,T,x,3~2~1~record~out-of-range",
        "bite,,x,3~2~2~treatment~missing-member",
        "bite,..,x,3~2~2~treatment~out-of-range",
        "bite,T,x,3,9~2~5~~unknown-member",
        "review,KNOWN,x,3~2~4~overjetHabitual~unknown-member",
        "bite,KNOWN,x,three~2~4~overjetHabitual~wrong-type",
        "bite,KNOWN,x y,3~2~3~id~out-of-range",
        "bite,KNOWN,x,~2~0~overjetHabitual~missing-member"
      })
  void eachFaultHasItsLineAndColumn(String row, long line, int column, String name, String code)
      throws IOException {
    Treatment known = sample();
    String text = "record,treatment,id,overjetHabitual\n" + row.replace("KNOWN", known.id());
    Sheet sheet = read(text);
    List<SheetFault> faults =
        sheet.treatments().stream()
            .flatMap(
                id ->
                    merge.merge(sheet, id, id.equals(known.id()) ? known : null).faults().stream())
            .toList();
    List<SheetFault> all = faults.isEmpty() ? sheet.faults() : faults;
    assertThat(all)
        .anySatisfy(
            fault -> {
              assertThat(fault.line()).isEqualTo(line);
              assertThat(fault.column()).isEqualTo(column);
              assertThat(fault.name()).isEqualTo(name == null ? "" : name);
              assertThat(fault.finding().code()).isEqualTo(code);
            });
  }

  @Test
  void aNestedEntryIsFoundByItsNumberEvenBehindAGap() throws IOException {
    Treatment known = sample();
    Review last = known.reviews().get(known.reviews().size() - 1);
    String text =
        new SheetWriting().add(withReviews(known, List.of(last)), SheetKind.REVIEW).text(',');
    List<String> lines = text.lines().toList();
    String wider =
        lines.get(0)
            + ",breakages.3.applianceId,breakages.3.part,breakages.3.action\n"
            + lines.get(1)
            + ",A1,tooth,remade";
    SheetMerge.Merged merged = merged(wider, known.id(), known);
    assertThat(merged.faults())
        .extracting(SheetFault::name)
        .contains("breakages.3.part")
        .doesNotContain("breakages.1.part");
  }

  @Test
  void oneRecordTwiceInASheetIsRefusedTheSecondTime() throws IOException {
    Treatment known = sample();
    String one = new SheetWriting().add(known, SheetKind.BITE).text(',');
    String again = one + one.lines().skip(1).findFirst().orElseThrow() + "\n";
    SheetMerge.Merged merged = merged(again, known.id(), known);
    assertThat(merged.faults()).extracting(f -> f.finding().code()).containsOnly("duplicate-id");
    assertThat(merged.taken()).isEqualTo(known.bites().size());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "\n\n",
        "record,treatment,colour\nbite,T,red",
        "record,treatment,id,id\nbite,T,1,2",
        "treatment,id\nT,1",
        "record,treatment,id\nbite,T,\"open",
        "record,treatment,id\nbite,T,\"a\"b",
        "record,treatment,breakages.0.part\nreview,T,x",
        "record,treatment,breakages.999.part\nreview,T,x"
      })
  void aSheetThatIsNotOneIsRefusedWhole(String text) {
    Sheet sheet = read(text);
    assertThat(sheet.rows()).isEmpty();
    assertThat(sheet.faults()).isNotEmpty();
  }

  @Test
  void bytesThatAreNotUtf8AreRefused() {
    byte[] latin = "record,treatment,id\nbite,T,\u00e9".getBytes(ISO_8859_1);
    assertThat(reader.read(latin).faults()).hasSize(1);
    assertThat(reader.read(new byte[SheetReader.MAX_BYTES + 1]).faults())
        .extracting(f -> f.finding().code())
        .containsExactly("too-large");
  }

  /** What spreadsheets write: the delimiter said first, and columns that were emptied. */
  @Test
  void aLineThatSaysTheDelimiterAndColumnsWithoutANameAreNothing() throws IOException {
    String row = "review,HL-2025-041,review-9,2026-09-28";
    String plain = "record,treatment,id,date\n" + row + "\n";
    Sheet expected = read(plain);
    assertThat(expected.rows()).hasSize(1);
    Sheet said = read("\uFEFFsep=;\r\n" + plain.replace(',', ';'));
    assertThat(said.faults()).isEmpty();
    assertThat(said.rows().get(0).content()).isEqualTo(expected.rows().get(0).content());
    assertThat(said.rows().get(0).line()).isEqualTo(3);
    Sheet emptied = read(plain.replace("\n", ",,\n"));
    assertThat(emptied.faults()).isEmpty();
    assertThat(emptied.rows()).isEqualTo(expected.rows());
    Sheet filled = read(plain.replace("id,date\n", "id,date,,\n").replace(row, row + ",,left"));
    assertThat(filled.faults()).hasSize(1);
    assertThat(filled.faults().get(0).place()).contains("line 2, column 6");
  }

  @Test
  void aByteOrderMarkAndEmptyLinesAreNothing() throws IOException {
    Treatment known = sample();
    String text = new SheetWriting().add(known, SheetKind.BITE).text(',');
    String loose = "\uFEFF" + text.replaceFirst("\n", "\r\n\r\n,,,\r\n");
    SheetMerge.Merged merged = merged(loose, known.id(), known);
    assertThat(merged.faults()).isEmpty();
    assertThat(merged.treatment()).isEqualTo(known);
  }

  @Test
  void theTemplateAndItsColumnsAreWhatTheCodeTakes() throws IOException {
    assertThat(Files.readString(WriteSheets.TEMPLATE)).isEqualTo(WriteSheets.template());
    assertThat(Files.readString(WriteSheets.COLUMNS)).isEqualTo(WriteSheets.columns());
    Treatment known = sample();
    SheetMerge.Merged merged = merged(WriteSheets.template(), known.id(), known);
    assertThat(merged.faults()).isEmpty();
    assertThat(merged.treatment()).isEqualTo(known);
  }

  private Sheet read(String text) {
    return reader.read(text.getBytes(UTF_8));
  }

  private SheetMerge.Merged merged(String sheet, String id, Treatment known) {
    Sheet read = read(sheet);
    assertThat(read.faults()).isEmpty();
    return merge.merge(read, id, known);
  }

  static Treatment sample() throws IOException {
    byte[] file = Files.readAllBytes(Path.of("sample-bundles/stage-change.treatment.json"));
    return ((ReadResult.Accepted) new TreatmentReader().read(file)).treatment();
  }

  private static Treatment withReviews(Treatment t, List<Review> reviews) {
    return new Treatment(
        t.id(),
        t.asOf(),
        t.clinic(),
        t.clinician(),
        t.patient(),
        t.referrer(),
        t.laboratory(),
        t.diagnosis(),
        t.bites(),
        t.appliances(),
        t.stages(),
        reviews,
        t.films(),
        t.models(),
        t.outcomes(),
        t.completion(),
        t.acceptances());
  }

  private static Treatment withoutImaging(Treatment t) {
    return new Treatment(
        t.id(),
        t.asOf(),
        t.clinic(),
        t.clinician(),
        t.patient(),
        t.referrer(),
        t.laboratory(),
        t.diagnosis(),
        t.bites(),
        t.appliances(),
        t.stages(),
        t.reviews(),
        List.of(),
        List.of(),
        List.of(),
        t.completion(),
        List.of());
  }
}
