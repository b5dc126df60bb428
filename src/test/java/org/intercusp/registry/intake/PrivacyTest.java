package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.sql.SQLException;
import java.util.Base64;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.privacy.Reduction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tries to find people again in what the registry keeps. */
class PrivacyTest {

  private static final String CASE =
      """
      {"format":"intercusp-outcome/1","kind":"case","submitter":{"system":"https://a.example/s",
      "value":"one"},"submission":"SUBM-%1$s","clinic":{"system":"https://a.example/c","value":"one"},
      "treatment":"TREAT-%1$s","patient":{"system":"https://a.example/p","value":"9434%1$s"},
      "consent":{"recordedOn":"2023-05-01"},"course":{"birthDate":"2011-03-29","sex":"male",
      "appliance":"twin-block","firstFittedOn":"2023-05-11","status":"in-treatment","reviews":3,
      "breakages":0,"lastAttendedOn":"2024-02-17","assessments":[{"phase":"start",
      "date":"2023-04-28","overjet":9}]}}
      """
          .replace("\n", "");

  private static final String WITHDRAWAL =
      """
      {"format":"intercusp-outcome/1","kind":"withdrawal","submitter":{"system":"https://a.example/s",
      "value":"one"},"submission":"SUBM-%1$s","clinic":{"system":"https://a.example/c","value":"one"},
      "treatment":"TREAT-%1$s","patient":{"system":"https://a.example/p","value":"9434%1$s"},
      "consent":{"recordedOn":"2023-05-01","withdrawnOn":"2026-05-01"}}
      """
          .replace("\n", "");

  @TempDir Path folder;

  private static String of(String form, int number) {
    return form.formatted("%06d".formatted(number));
  }

  /** Every stored byte as text, Parquet pages unpacked by the engine. */
  private static String stored(Registry registry) throws IOException, SQLException {
    StringBuilder all = new StringBuilder();
    for (Path file : registry.files()) {
      all.append(file).append('\n').append(new String(Files.readAllBytes(file), UTF_8));
    }
    return all.append(String.join("\n", registry.ask("SELECT * FROM CASES"))).toString();
  }

  @Test
  void nothingPlantedIsKept() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    String named =
        of(CASE, 2)
            .replace("\"sex\"", "\"name\":\"Evelyn Quillfeather\",\"note\":\"cries\",\"sex\"");
    String odd = of(CASE, 3).replace("\"sex\":\"male\"", "\"Evelyn Quill\":1,\"sex\":\"Evelyn\"");
    registry.load(
        List.of(of(CASE, 1), named, odd, of(CASE, 4).replace("2023-05-11", "2011-03-28")));
    assertThat(registry.ask("SELECT count(*) FROM CASES")).containsExactly("1");
    assertThat(stored(registry))
        .doesNotContain("Evelyn", "Quill", "cries", "9434", "SUBM", "TREAT", "a.example/p")
        .doesNotContain("2011-03-29", "2023-05-11", "2023-04-28", "2024-02-17", "2023-05-01");
    // Day dates of any case are absent; the only times are those of the load itself.
    String rows = String.join("\n", registry.ask("SELECT * FROM CASES"));
    assertThat(Pattern.compile("\\d{4}-\\d{2}-\\d{2}").matcher(rows).find()).isFalse();
  }

  @Test
  void aDictionaryWithoutTheKeyFindsNobody()
      throws IOException, SQLException, GeneralSecurityException {
    Registry registry = new Registry(folder);
    registry.load(List.of(of(CASE, 77)));
    Set<String> kept =
        Set.copyOf(
            registry.ask("SELECT unnest([person, treatment, submission, content]) FROM CASES"));
    assertThat(kept).hasSize(4);
    // Whoever knows every identifier and how the hash is made, and lacks the key alone.
    Set<String> guesses = new HashSet<>();
    MessageDigest sha = MessageDigest.getInstance("SHA-256");
    Mac mac = Mac.getInstance("HmacSHA256");
    mac.init(new SecretKeySpec(new byte[32], "HmacSHA256"));
    for (int number = 0; number < 2000; number++) {
      String patient = "person\u0000https://a.example/p\u00009434" + "%06d".formatted(number);
      guesses.add(cut(sha.digest(patient.getBytes(UTF_8))));
      guesses.add(cut(mac.doFinal(patient.getBytes(UTF_8))));
    }
    assertThat(guesses).doesNotContainAnyElementsOf(kept);
    // The guess is the right one: with the key it finds the person.
    String line =
        Files.readAllLines(registry.place.keys()).stream()
            .filter(each -> each.startsWith("k1 "))
            .findFirst()
            .get();
    byte[] key = Base64.getDecoder().decode(line.substring(3));
    mac.init(new SecretKeySpec(key, "HmacSHA256"));
    String right = "person\u0000https://a.example/p\u00009434000077";
    assertThat(kept).contains(cut(mac.doFinal(right.getBytes(UTF_8))));
  }

  private static String cut(byte[] hash) {
    byte[] first = java.util.Arrays.copyOf(hash, 15);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(first);
  }

  @Test
  void aNewKeyChangesEveryPseudonymAndTheSamePersonStillMatches() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    registry.load(List.of(of(CASE, 1), of(CASE, 2), of(WITHDRAWAL, 3)));
    List<String> before = registry.ask("SELECT person FROM CASES ORDER BY 1");
    assertThat(registry.intake.rotateKey()).isEqualTo("k2");
    List<String> after = registry.ask("SELECT person FROM CASES ORDER BY 1");
    assertThat(after).hasSize(2).doesNotContainAnyElementsOf(before);
    assertThat(registry.ask("SELECT DISTINCT key_id FROM CASES")).containsExactly("k2");
    LoadCounts again = registry.load(List.of(of(CASE, 1), of(CASE, 2), of(CASE, 3))).counts();
    assertThat(again.same()).isEqualTo(2);
    assertThat(again.refused()).as("what was withdrawn stays withdrawn").isEqualTo(1);
    String second = of(CASE, 1).replace("SUBM", "SUBM-b").replace("TREAT", "TREAT-b");
    registry.load(List.of(second));
    assertThat(registry.ask("SELECT person FROM CASES GROUP BY 1 HAVING count(*) = 2")).hasSize(1);
  }

  @Test
  void withdrawalTakesTheCaseAndItsTraces() throws IOException, SQLException {
    Registry registry = new Registry(folder);
    String broken = of(CASE, 5).replace("\"reviews\":3", "\"reviews\":-3");
    registry.load(List.of(of(CASE, 4), of(CASE, 5), of(CASE, 6), broken));
    String person =
        KeyRing.open(registry.place.keys())
            .pseudonyms()
            .person(new org.intercusp.treatment.Identifier("https://a.example/p", "9434000005"));
    assertThat(stored(registry)).contains(person);
    String elsewhere = of(CASE, 5).replace("SUBM", "OTHER").replace("TREAT", "LATER");
    registry.load(List.of(elsewhere));
    LoadCounts counts = registry.load(List.of(of(WITHDRAWAL, 5))).counts();
    assertThat(counts.replaced()).isEqualTo(1);
    assertThat(counts.withdrawn()).isEqualTo(1);
    assertThat(registry.ask("SELECT count(*) FROM CASES")).containsExactly("2");
    assertThat(stored(registry)).doesNotContain(person);
    LoadCounts old = registry.load(List.of(of(CASE, 5), elsewhere, of(WITHDRAWAL, 5))).counts();
    assertThat(old.refused()).as("old files do not bring it back").isEqualTo(2);
    assertThat(old.same()).isEqualTo(1);
    assertThat(stored(registry)).doesNotContain(person);
    String renewed = of(CASE, 5).replace("\"clinic\"", "\"revision\":2,\"clinic\"");
    assertThat(registry.load(List.of(renewed)).counts().fresh()).isEqualTo(1);
  }

  @Test
  void datesAndAgesAreReducedAsConfigured() throws IOException, SQLException {
    Registry registry = new Registry(folder, new Reduction(3, 12));
    registry.load(List.of(of(CASE, 1)));
    assertThat(
            registry.ask(
                "SELECT first_fitted_month, start_month, received_month, age_months FROM CASES"))
        .containsExactly("2023-04,2023-04,2026-10,144");
  }

  @Test
  void aKeyFileOthersCanReadIsRefused() throws IOException {
    Path keys = folder.resolve("keys");
    KeyRing.open(keys);
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(keys)))
        .isEqualTo("rw-------");
    Files.setPosixFilePermissions(keys, PosixFilePermissions.fromString("rw-r--r--"));
    assertThatThrownBy(() -> KeyRing.open(keys))
        .isInstanceOf(UncheckedIOException.class)
        .hasRootCauseMessage("others than its owner may use it");
  }
}
