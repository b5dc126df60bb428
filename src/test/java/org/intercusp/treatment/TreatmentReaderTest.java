package org.intercusp.treatment;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.ReadResult.Accepted;
import org.intercusp.treatment.ReadResult.Refused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TreatmentReaderTest {

  private final TreatmentReader reader = new TreatmentReader();
  private final TreatmentWriter writer = new TreatmentWriter();

  private static String whole() {
    return new String(Files.whole(), UTF_8);
  }

  private List<Finding> faults(String file) {
    return reader.read(file.getBytes(UTF_8)) instanceof Refused refused
        ? refused.faults()
        : List.of();
  }

  private static String changed(String from, String to) {
    assertThat(whole()).contains(from);
    return whole()
        .replaceFirst(
            java.util.regex.Pattern.quote(from), java.util.regex.Matcher.quoteReplacement(to));
  }

  private List<String> places(String file) {
    return faults(file).stream().map(f -> f.code() + " " + f.pointer()).toList();
  }

  @Test
  void everyMemberOfTheDictionaryIsReadAndWrittenBack() {
    ReadResult first = reader.read(Files.whole());
    assertThat(first).isInstanceOf(Accepted.class);
    Treatment treatment = ((Accepted) first).treatment();
    byte[] written = writer.write(treatment);
    assertThat(reader.read(written)).isEqualTo(first);
    assertThat(writer.write(((Accepted) reader.read(written)).treatment())).isEqualTo(written);
    assertThat(new String(written, UTF_8))
        .startsWith("{\"format\":\"intercusp-treatment/1\",\"id\":\"HL-T-0001\",\"asOf\":")
        .contains("\"overjet\":9.0,\"overbite\":4,")
        .contains("\"upper\":[0.8,2.1,0,\"impacted\",null]")
        .contains("Noé");
  }

  @Test
  void theWriterKeepsEveryMemberOfTheFile() {
    // All members are there and in the dictionary's order, so the text differs only in white space.
    Treatment treatment = ((Accepted) reader.read(Files.whole())).treatment();
    String compact = whole().replaceAll("\\s+(?=([^\"]*\"[^\"]*\")*[^\"]*$)", "");
    String written = new String(writer.write(treatment), UTF_8);
    assertThat(written.length()).isEqualTo(compact.length());
    assertThat(written.chars().sorted().toArray()).isEqualTo(compact.chars().sorted().toArray());
  }

  @Test
  void emptyAndAbsentAreToldApartWhereTheyMeanDifferentThings() {
    String empty = changed("\"jointSigns\": [\"click\"],", "\"jointSigns\": [],");
    String absent = changed("\"jointSigns\": [\"click\"],", "");
    Treatment looked = ((Accepted) reader.read(empty.getBytes(UTF_8))).treatment();
    Treatment nobodyLooked = ((Accepted) reader.read(absent.getBytes(UTF_8))).treatment();
    assertThat(looked.diagnosis().jointSigns()).isEmpty();
    assertThat(nobodyLooked.diagnosis().jointSigns()).isNull();
    assertThat(new String(writer.write(looked), UTF_8)).contains("\"jointSigns\":[]");
    assertThat(looked).isNotEqualTo(nobodyLooked);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"tooth\": \"31\" | \"tooth\": \"19\" | tooth-code | /appliances/0/clasps/2/tooth",
        "\"11\": 8.5 | \"91\": 8.5 | tooth-code | /models/0/toothWidths/91",
        "\"upperAnterior\": 4 | \"upperAnterior\": 26 | score-range | /outcomes/0/scores/par/upperAnterior",
        "\"dhc\": \"4a\" | \"dhc\": \"4g\" | score-range | /outcomes/0/scores/dhc",
        "\"total\": 18 | \"total\": 65 | score-range | /outcomes/0/reportedOutcomes/0/total",
        "\"reason\": \"poor | \"cause\": \"\", \"reason\": \"poor | unknown-member | /completion/cause",
        "\"S\": [0, 0] | \"Q\": [0, 0] | unknown-member | /films/0/landmarks/Q",
        "\"overjet\": 9.0 | \"overjet\": \"9.0\" | wrong-type | /diagnosis/overjet",
        "\"months\": 9 | \"months\": 9.5 | wrong-type | /stages/0/months",
        "\"referrer\": { | \"referrer\": null, \"laboratory\": { | wrong-type | /referrer",
        "\"overjet\": 9.0 | \"overjet\": 20.01 | out-of-range | /diagnosis/overjet",
        "\"overjet\": 9.0 | \"overjet\": 1e1000000 | out-of-range | /diagnosis/overjet",
        "\"overjet\": 9.0 | \"overjet\": 1e-1000000 | out-of-range | /diagnosis/overjet",
        "\"sex\": \"male\" | \"sex\": \"Male\" | out-of-range | /patient/sex",
        "intercusp-treatment/1 | intercusp-treatment/2 | out-of-range | /format",
        "[0.8, 2.1, 0, \"impacted\", null] | [0.8, 2.1, 0, \"impacted\"] | out-of-range | /models/0/contacts/upper",
        "\"id\": \"HL-T-0001\" | \"id\": \".\" | out-of-range | /id",
        "\"id\": \"HL-T-0001\" | \"id\": \"..\" | out-of-range | /id",
        "\"id\": \"rev-2\" | \"id\": \"..\" | out-of-range | /reviews/1/id",
        "\"birthDate\": \"2013-05-04\" | \"birthDate\": \"2013-02-29\" | not-a-date | /patient/birthDate",
        "\"family\": \"Castellan\", | `` | missing-member | /referrer/family",
        "\"biteId\": \"bite-1\", | `` | missing-member | /appliances/0/biteId",
        "\"repeatOf\": \"out-1\", \"scores\": {\"dhc\": \"4a\"} | \"repeatOf\": \"out-1\" | missing-member | /outcomes/1",
        "\"sex\": \"male\" | \"sex\": \"male\", \"sex\": \"male\" | duplicate-member | /patient/sex",
        "\"id\": \"rev-2\" | \"id\": \"rev-1\" | duplicate-id | /reviews/1/id",
        "\"biteId\": \"bite-1\" | \"biteId\": \"bite-9\" | unknown-reference | /appliances/0/biteId",
        "\"stageId\": \"active\" | \"stageId\": \"support\" | unknown-reference | /reviews/0/stageId",
        "\"repeatOf\": \"film-1\" | \"repeatOf\": \"film-2\" | unknown-reference | /films/1/repeatOf",
        "\"remakeOf\": \"app-0\" | \"remakeOf\": \"app-1\" | unknown-reference | /appliances/0/lab/remakeOf",
      })
  void aFaultHasItsCodeAndPlace(String from, String to, String code, String pointer) {
    assertThat(places(changed(from, to == null ? "" : to))).contains(code + " " + pointer);
  }

  @Test
  void anIdMayHoldPointsBesideOtherLetters() {
    for (String id : List.of("...", ".a", "1..2", "HL.2026.001")) {
      assertThat(places(changed("\"id\": \"HL-T-0001\"", "\"id\": \"" + id + "\""))).isEmpty();
    }
  }

  @Test
  void allFaultsComeAtOnceWithValueAndExpectation() {
    String file =
        changed("\"overjet\": 9.0", "\"overjet\": 90")
            .replaceFirst("\"tooth\": \"16\"", "\"tooth\": \"UR6\"")
            .replaceFirst("\"biteId\": \"bite-1\"", "\"biteId\": \"gone\"")
            .replaceFirst("\"2025-03-22\"", "\"22/03/2025\"");
    assertThat(places(file))
        .containsExactlyInAnyOrder(
            "out-of-range /diagnosis/overjet",
            "tooth-code /appliances/0/clasps/0/tooth",
            "not-a-date /appliances/0/lab/requiredOn",
            "unknown-reference /appliances/0/biteId");
    Finding overjet = faults(file).get(0);
    assertThat(overjet.severity()).isEqualTo(Severity.REFUSED);
    assertThat(overjet.subject()).isEqualTo("HL-T-0001");
    assertThat(overjet.value()).hasToString("Numeric[number=90]");
    assertThat(overjet.message())
        .isEqualTo("/diagnosis/overjet is 90: expected a number from -20 to 20 mm.");
    assertThat(faults(file).get(1).subject()).isEqualTo("app-1");
  }

  @Test
  void faultsBeyondAThousandAreCountedAndNotKept() {
    String members =
        java.util.stream.IntStream.range(0, 5000)
            .mapToObj(i -> "\"x" + i + "\":1,")
            .collect(java.util.stream.Collectors.joining());
    List<Finding> faults = faults(changed("\"asOf\"", members + "\"asOf\""));
    assertThat(faults).hasSize(1001);
    assertThat(faults.get(1000).code()).isEqualTo("too-many-faults");
    assertThat(faults.get(1000).message()).contains("5000");
  }

  @Test
  void linesAreReadOneByOneEachWithItsNumber() {
    Treatment treatment = ((Accepted) reader.read(Files.whole())).treatment();
    String good = new String(writer.write(treatment), UTF_8);
    String file = good + "\n\n{\"broken\n" + good + "\r\n";
    List<ReadLine> lines =
        reader.readLines(new ByteArrayInputStream(file.getBytes(UTF_8))).toList();
    assertThat(lines).extracting(ReadLine::line).containsExactly(1L, 3L, 4L);
    assertThat(lines.get(1).result()).isInstanceOf(Refused.class);
    assertThat(lines.get(2).result()).isEqualTo(new Accepted(treatment));
  }

  @Test
  void aFileIsTakenForLinesOnlyWhereItHoldsThem() {
    Treatment treatment = ((Accepted) reader.read(Files.whole())).treatment();
    byte[] line = writer.write(treatment);
    assertThat(reader.readFile(new ByteArrayInputStream(Files.whole())))
        .containsExactly(new ReadLine(1, new Accepted(treatment)));
    assertThat(reader.readFile(new ByteArrayInputStream(line)))
        .containsExactly(new ReadLine(1, new Accepted(treatment)));
    String withABrokenFirstLine = "{\"broken\n" + new String(line, UTF_8) + "\n";
    assertThat(reader.readFile(new ByteArrayInputStream(withABrokenFirstLine.getBytes(UTF_8))))
        .extracting(ReadLine::line)
        .containsExactly(1L, 2L);
    assertThat(reader.readFile(new ByteArrayInputStream(new byte[0])))
        .singleElement()
        .extracting(ReadLine::result)
        .isInstanceOf(Refused.class);
  }
}
