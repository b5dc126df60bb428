package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a command cannot do is said in words of the trade, with nothing of the libraries below. */
class PlainWordsTest {

  private static final String SAFE = "sample-bundles/deep-bite-one-step.treatment.json";

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "check FILE --on 2026-02-30; is no day of the calendar",
        "outcomes report --cut-off soon; is no day of the calendar",
        "summary FILE --for hospital; expected one of [dentist, laboratory, patient]",
        "send FILE --to x --scope x; expected one of [hospital, referrer, laboratory, registry]",
        "send FILE --to http://; is no address",
        "check FILE --into FILE; --into is for records of a sheet",
        "map FILE --into FILE; --into is for records of a sheet",
        "check x.csv --into FILE; there is no x.csv",
        "restore --from nowhere.zip --intercusp.data=FOLDER; there is no nowhere.zip",
        "backup --to nowhere/x.zip; is not a new file in a directory that is there",
        "backup --to FILE; is not a new file in a directory that is there",
        "outcomes load nowhere.ndjson --intercusp.data=FOLDER; nowhere.ndjson: cannot be read",
        "outcomes load FILE --refusals nowhere/x --intercusp.data=FOLDER; the refusals cannot be written: nowhere/x",
        "outcomes load FILE --intercusp.data=FILE; cannot be used",
        "outcomes export --format csv --to nowhere --intercusp.data=FILE; cannot be used",
        "outcomes rotate-key --intercusp.data=FILE; cannot be used",
        "outcomes export --to FOLDER/out --intercusp.data=FOLDER/none; No outcomes there",
        "outcomes rotate-key --intercusp.data=FOLDER/none; No outcomes there",
        "outcomes export --to FILE --intercusp.data=FOLDER; FILE is no directory",
        "summary FILE --for dentist --language de; the dentist's and the laboratory's are in English",
        "summary FILE --for laboratory --language de; the dentist's and the laboratory's are in English",
        "backup --to new.zip --service here; is no address",
        "backup --to new.zip --token-file nowhere; nowhere cannot be read"
      })
  void aWrongWordIsNamed(String words, String said) {
    String told =
        told(2, words.replace("FILE", SAFE).replace("FOLDER", folder.toString()).split(" "));
    assertThat(told)
        .contains(said.replace("FILE is no", SAFE + " is no"))
        .doesNotContain("java", "Exception", "null");
    assertThat(folder.resolve("none")).doesNotExist();
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  void aFullDiskIsNobodysWrongWord() throws IOException {
    Path full = Path.of("/dev/full");
    assumeTrue(Files.exists(full));
    Path file = Files.writeString(folder.resolve("o.ndjson"), "{}\n");
    String[] load = {
      "outcomes",
      "load",
      file.toString(),
      "--refusals",
      full.toString(),
      "--intercusp.data=" + folder
    };
    assertThat(told(3, load)).contains("/dev/full: the disk is full; make room and try again");
  }

  @Test
  void aRecordGivesTheTerminalNoOrders() throws IOException {
    Path file = folder.resolve("file.json");
    Files.writeString(file, "{\"id\": \"\\u001b[31mX\\u0007\\u009b1A\\u0000\\t\"}");
    assertThat(told(2, "check", file.toString()))
        .contains("/id is \uFFFD[31mX\uFFFD\uFFFD1A\uFFFD")
        .doesNotContainPattern("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\x7f-\\x9f]");
  }

  @Test
  void aServiceThatIsNotThereIsSaidToBe() {
    String told = told(4, "backup", "--to", "new.zip", "--service", "http://127.0.0.1:1");
    assertThat(told).contains("http://127.0.0.1:1: nobody answers there").doesNotContain("null");
  }

  @Test
  void everyCommandHasItsHelp() {
    assertThat(told(0, "serve", "--help")).isEmpty();
    assertThat(told(0, "serve", "-h")).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "UTF-16LE, UTF-16",
    "UTF-16BE, UTF-16",
    "ISO-8859-1, a byte that is not UTF-8",
  })
  void anotherEncodingIsNamed(String charset, String said) throws IOException {
    String text = Files.readString(Path.of(SAFE)).replace("Harbour", "H\u00e4rbour");
    Path file = folder.resolve("file.json");
    Files.write(file, text.getBytes(Charset.forName(charset)));
    assertThat(told(2, "check", file.toString())).contains(said);
    Files.write(file, ("\uFEFF" + text).getBytes(Charset.forName(charset)));
    assertThat(told(2, "check", file.toString()))
        .contains(charset.startsWith("UTF") ? "UTF-16" : "not JSON");
  }

  @ParameterizedTest
  @CsvSource({
    "NaN, Non-standard token 'NaN'.",
    "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[, exceeds the maximum allowed (32).",
    "{bad, at line 1"
  })
  void aLimitIsSaidWithoutTheNameOfASetting(String value, String said) throws IOException {
    Path file = Files.writeString(folder.resolve("file.json"), "{\"id\": " + value + "}");
    assertThat(told(2, "check", file.toString()))
        .contains(said, "(1 fault)")
        .doesNotContain("`", "JsonReadFeature", "StreamReadConstraints");
  }

  @Test
  void aFaultOfALineIsAtThatLine() throws IOException {
    String line = Files.readString(Path.of(SAFE)).replaceAll("\\s*\\R\\s*", " ");
    Path file = Files.writeString(folder.resolve("many.ndjson"), line + "\n\n" + line + "\n{bad\n");
    assertThat(told(2, "check", file.toString()))
        .contains(file + ", line 4 cannot be read", "not JSON at line 4, column 2");
  }

  /** What a command said on standard error, where it ended as expected. */
  private static String told(int code, String... words) {
    try (Overheard said = new Overheard()) {
      int ended = Intercusp.command(words);
      assertThat(ended).as(said.error()).isEqualTo(code);
      return said.error();
    }
  }
}
