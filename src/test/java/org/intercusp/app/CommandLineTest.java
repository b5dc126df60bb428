package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeout;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.intercusp.cli.CommandLineDoor;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The commands with the exit codes that other people's scripts rely on. */
class CommandLineTest {

  private static final String SAFE = "sample-bundles/deep-bite-one-step.treatment.json";
  private static final String UNSAFE = "sample-bundles/unsafe-bite-refused.treatment.json";

  @TempDir Path folder;

  /** How a command ended and what it printed. */
  private record Ended(int code, String out, String error) {}

  @Test
  void checkTellsCleanFromFindingsFromUnreadable() throws Exception {
    assertThat(run("check", SAFE).code()).isZero();
    Ended unsafe = run("check", UNSAFE);
    assertThat(unsafe.code()).isEqualTo(1);
    assertThat(unsafe.out()).contains("bite-share-exceeded").contains("Decision support");
    Path broken = Files.writeString(folder.resolve("broken.json"), "{\"id\": }");
    Ended unreadable = run("check", broken.toString());
    assertThat(unreadable.code()).isEqualTo(2);
    assertThat(unreadable.error()).contains("not-json");
    assertThat(run("check", SAFE, UNSAFE, broken.toString()).code()).isEqualTo(2);
    assertThat(run("check", folder.resolve("nowhere.json").toString()).code()).isEqualTo(2);
  }

  @Test
  void checkPrintsForMachinesToo() throws Exception {
    JsonNode json = new JsonMapper().readTree(run("check", "--format", "json", UNSAFE).out());
    assertThat(json.propertyNames()).containsExactly("treatment", "figures", "findings");
    String outcome = run("check", "--format", "fhir", UNSAFE).out();
    assertThat(outcome).contains("OperationOutcome").contains("bite-share-exceeded");
    assertThat(outcome).doesNotContain("\"location\"");
  }

  @Test
  void mapPrintsTheSameBytesTwiceAndTheSampleBundle() throws Exception {
    Ended first = run("map", SAFE);
    assertThat(first.code()).isZero();
    assertThat(run("map", SAFE).out()).isEqualTo(first.out());
    String golden = Files.readString(Path.of("sample-bundles/deep-bite-one-step.bundle.json"));
    assertThat(new JsonMapper().readTree(first.out())).isEqualTo(new JsonMapper().readTree(golden));
    assertThat(run("map", "--format", "xml", UNSAFE).code()).isEqualTo(1);
  }

  @Test
  void aSheetOfRecordsIsReadIntoItsTreatment() throws Exception {
    String sheet = "sample-bundles/records-template.csv";
    String into = "sample-bundles/stage-change.treatment.json";
    String golden = Files.readString(Path.of("sample-bundles/stage-change.bundle.json"));
    Ended mapped = run("map", sheet, "--into", into);
    assertThat(mapped.code()).isZero();
    assertThat(new JsonMapper().readTree(mapped.out()))
        .isEqualTo(new JsonMapper().readTree(golden));
    Path wrong =
        Files.writeString(
            folder.resolve("wrong.csv"),
            Files.readString(Path.of(sheet)).replace("8.5,13.5", "85,13.5"));
    Ended checked = run("check", wrong.toString(), "--into", into);
    assertThat(checked.code()).isEqualTo(2);
    assertThat(checked.error())
        .contains("9 rows read, 8 taken, 1 refused", "line 2, column 10 (registeredReading)");
    assertThat(run("map", wrong.toString(), "--into", into).code()).isEqualTo(2);
  }

  @Test
  void mapWritesOtherReleases() throws Exception {
    assertThat(run("map", "--fhir", "4.0", SAFE).out()).isEqualTo(run("map", SAFE).out());
    Ended five = run("map", "--fhir", "5.0", SAFE);
    assertThat(five.code()).isZero();
    assertThat(five.out()).contains("\"DeviceUsage\"").doesNotContain("DeviceUseStatement");
    Ended fourB = run("map", "--fhir", "4.3", "--as", "document", "--format", "xml", SAFE);
    assertThat(fourB.code()).isZero();
    assertThat(fourB.out()).contains("<DeviceUseStatement");
    Ended none = run("map", "--fhir", "3.0", SAFE);
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.error()).contains("expected 4.0, 4.3 or 5.0");
  }

  @Test
  void validateJudgesWhatMapPrints() throws Exception {
    assertThat(run("validate", "sample-bundles/deep-bite-one-step.bundle.json").code()).isZero();
    Path wrong =
        Files.writeString(
            folder.resolve("wrong.json"),
            "{\"resourceType\":\"Patient\",\"birthDate\":\"2013-02-30\"}");
    Ended refused = run("validate", wrong.toString());
    assertThat(refused.code()).isEqualTo(1);
    assertThat(refused.out()).contains("birthDate");
    Ended early =
        run("validate", "--on", "2020-01-01", "sample-bundles/deep-bite-one-step.bundle.json");
    assertThat(early.code()).isEqualTo(1);
    assertThat(early.out()).contains("date-order");
    Path ring = Files.writeString(folder.resolve("deep.json"), "[".repeat(9_000));
    assertThat(run("validate", ring.toString()).code()).isEqualTo(2);
  }

  @Test
  void validateTakesLinesWhereverTheyComeFrom() throws Exception {
    String sound = "{\"resourceType\":\"Patient\",\"birthDate\":\"2013-02-28\"}";
    String wrong = "{\"resourceType\":\"Patient\",\"birthDate\":\"2013-02-30\"}";
    String lines = sound + "\r\n\n" + wrong + "\n" + sound + "\n";

    Ended given = given(lines, "validate", "-");
    assertThat(given.code()).isEqualTo(1);
    assertThat(given.out().lines().filter(line -> !line.startsWith(" ")))
        .hasSize(3)
        .allMatch(line -> line.startsWith("standard input, line "));
    assertThat(given.out())
        .contains("standard input, line 3: ")
        .contains("at line 3, column ")
        .contains("standard input, line 4: clean");
    for (String name : new String[] {"lines.ndjson", "lines.txt"}) {
      Path file = Files.writeString(folder.resolve(name), lines);
      assertThat(run("validate", file.toString()).out())
          .isEqualTo(given.out().replace("standard input", file.toString()));
    }
    assertThat(given(sound + "\n{\n", "validate", "-").code()).isEqualTo(2);
    assertThat(given("", "validate", "-").code()).isEqualTo(2);
  }

  @Test
  void validateTakesOneDocumentFromStandardInput() throws Exception {
    String pretty = "{\n  \"resourceType\": \"Patient\",\n  \"birthDate\": \"2013-02-30\"\n}\n";
    assertThat(given(pretty, "validate", "-").out()).contains("standard input: ", "at line 3, ");
    String xml =
        "<?xml version=\"1.0\"?>\n<Patient xmlns=\"http://hl7.org/fhir\">\n"
            + "<birthDate value=\"2013-02-30\"/>\n</Patient>\n";
    assertThat(given(xml, "validate", "-").out()).contains("standard input: ", "at line 3, ");
    assertThat(given("{\"resourceType\":\"Patient\"}\n", "validate", "-").out())
        .startsWith("standard input: clean");
  }

  @Test
  void sendSendsNothingThatMayNotGoAndSaysWhenNobodyAnswers() {
    String nobody = "http://127.0.0.1:9/fhir";
    Ended stopped = run("send", UNSAFE, "--to", nobody);
    assertThat(stopped.code()).isEqualTo(1);
    assertThat(stopped.error()).contains("Nothing was sent").contains("bite-share-exceeded");
    assertThat(run("send", SAFE, "--to", nobody, "--dry-run").code()).isZero();
    assertThat(run("send", SAFE, "--to", "nowhere").code()).isEqualTo(2);
    Ended fetched = run("fetch", "--from", nobody, "--patient", "urn:x|1");
    assertThat(fetched.code()).isEqualTo(4);
    assertThat(fetched.error()).contains("Not reached").doesNotContain("Exception");
  }

  @Test
  void aWithdrawalAfterTheRecordsDayStopsSending() throws Exception {
    String file = Files.readString(Path.of(SAFE));
    String withdrawn =
        file.replaceFirst(
            "(\"recordedOn\"\\s*:\\s*\"[^\"]+\",?)(?=[^{}]*\"scope\")",
            "\"withdrawnOn\": \"2026-09-01\", $1");
    assertThat(withdrawn).isNotEqualTo(file);
    Path path = Files.writeString(folder.resolve("withdrawn.json"), withdrawn);
    String[] send = {"send", path.toString(), "--to", "http://127.0.0.1:9/fhir", "--dry-run"};
    Ended stopped = run(send);
    assertThat(stopped.code()).as(stopped.error()).isEqualTo(1);
    assertThat(stopped.error()).contains("consent-missing");
  }

  @Test
  void generateIsTheSameForTheSameSeed() {
    Ended first = run("generate", "--treatments", "3", "--seed", "5");
    assertThat(first.out().lines()).hasSize(3);
    assertThat(run("generate", "--treatments", "3", "--seed", "5").out()).isEqualTo(first.out());
    assertThat(run("generate", "--treatments", "3", "--seed", "6").out()).isNotEqualTo(first.out());
  }

  @Test
  void summaryWritesADocumentForEachReader() {
    for (String reader : new String[] {"dentist", "laboratory", "patient"}) {
      assertThat(run("summary", SAFE, "--for", reader).out()).contains("<html");
      assertThat(run("summary", SAFE, "--for", reader, "--format", "pdf").out()).contains("%PDF");
      assertThat(run("summary", SAFE, "--for", reader, "--format", "fhir").out())
          .startsWith("{")
          .contains("\"type\": \"document\"", "Composition");
    }
  }

  @Test
  void harmStopsWearAndOrderOnTheSheetsAndNotTheCommand() throws Exception {
    String file = Files.readString(Path.of(SAFE));
    int last = file.lastIndexOf("\"stageId\"");
    String harmed =
        file.substring(0, last)
            + "\"jointSigns\": [\"pain\", \"locking\"], "
            + file.substring(last).replaceFirst("\"jointSigns\"\\s*:\\s*\\[[^]]*\\],?", "");
    String path = Files.writeString(folder.resolve("harmed.json"), harmed).toString();
    Ended family = run("summary", path, "--for", "patient");
    assertThat(family.code()).as(family.error()).isZero();
    assertThat(family.out())
        .contains("Please call the clinic before you put the brace in again.")
        .doesNotContain("22 hours");
    Ended order = run("summary", path, "--for", "laboratory");
    assertThat(order.code()).isZero();
    assertThat(order.out()).contains("Order stopped:");
    Ended unsafe = run("summary", UNSAFE, "--for", "laboratory");
    assertThat(unsafe.code()).isEqualTo(1);
    assertThat(unsafe.out()).contains("Order stopped:");
  }

  @Test
  void badUsageIsTwo() {
    assertThat(run("check").code()).isEqualTo(2);
    assertThat(run("frobnicate").code()).isEqualTo(2);
    assertThat(run("check", "--on", "yesterday", SAFE).code()).isEqualTo(2);
    assertThat(run("--help").code()).isZero();
  }

  private static Ended given(String input, String... words) {
    InputStream in = System.in;
    System.setIn(new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)));
    try {
      return run(words);
    } finally {
      System.setIn(in);
    }
  }

  /** A disk that is full, or a reader that has gone. */
  @Test
  void resultsThatCannotBeWrittenAreAFailure() {
    OutputStream full =
        new OutputStream() {
          @Override
          public void write(int one) throws IOException {
            throw new IOException("No space left on device");
          }
        };
    for (String command : List.of("map", "check", "summary --for dentist --format pdf")) {
      Ended ended = run(full, (command + " " + SAFE).split(" "));
      assertThat(ended.code()).as(command).isEqualTo(3);
      assertThat(ended.error()).containsOnlyOnce("The results could not be written");
    }
    assertTimeout(
        Duration.ofSeconds(60),
        () ->
            assertThat(run(full, "generate", "--treatments", "50000000", "--as", "outcomes").code())
                .isEqualTo(3));
  }

  @Test
  void aLanguageThatIsNotWrittenIsBadUsage() {
    Ended french = run("summary", SAFE, "--for", "patient", "--language", "fr");
    assertThat(french.code()).isEqualTo(2);
    assertThat(french.error()).contains("expected one of [en, de]");
    assertThat(run("summary", SAFE, "--for", "dentist", "--language", "en-GB").code()).isZero();
    assertThat(run("summary", SAFE, "--for", "patient", "--language", "de-AT").code()).isZero();
  }

  private static Ended run(String... words) {
    return run((OutputStream) null, words);
  }

  private static Ended run(OutputStream out, String... words) {
    try (Overheard said = new Overheard(out);
        ConfigurableApplicationContext rooms =
            new SpringApplicationBuilder(RoomWiring.class, CommandLineDoor.class)
                .web(WebApplicationType.NONE)
                .lazyInitialization(true)
                .registerShutdownHook(false)
                .properties(Map.of("logging.threshold.console", "OFF"))
                .run()) {
      int code = rooms.getBean(CommandLineDoor.class).run(words);
      return new Ended(code, said.out(), said.error());
    }
  }
}
