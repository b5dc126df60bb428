package org.intercusp.treatment.shape;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Random;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Held against the patterns that the published schema has, as Java's regular expressions. */
class LettersTest {

  private static final String SOME =
      "aZ09._- \u0000\u001f~\u007f\u0085\u009f\u00a0\u00e9\u2028\n\t/:é";

  @Test
  void aLineIsWhatItsPatternSays() {
    agree(Letters::isLine, pattern(Words.text(80), "text80"), SOME);
  }

  @Test
  void anIdIsWhatItsPatternSays() {
    agree(Letters::isId, pattern(Words.id(), "id"), SOME + "@[`{");
    agree(Letters::isId, pattern(Words.id(), "id"), "..a");
    assertThat(Words.isId(".") || Words.isId("..")).isFalse();
    assertThat(Words.isId("...") && Words.isId(".a")).isTrue();
  }

  @Test
  void anUriIsWhatItsPatternSays() {
    agree(Letters::isUri, pattern(Words.uri(), "uri"), "aZ09:::+.-/ <>\"{}|\\^`\u0000\u0085\u00e9");
  }

  @Test
  void aDateIsWhatItsPatternSays() {
    Pattern date = pattern(Words.date(), "date");
    for (int year = 1890; year <= 2210; year++) {
      for (int month = 0; month <= 13; month++) {
        for (int day = 0; day <= 32; day++) {
          String text = "%04d-%02d-%02d".formatted(year, month, day);
          assertThat(Letters.isDate(text)).as(text).isEqualTo(date.matcher(text).matches());
        }
      }
    }
    agree(Letters::isDate, date, "0123456789-\u0660/");
  }

  @Test
  void aDateIsTheOneThatThePlatformReads() {
    for (LocalDate day = LocalDate.of(1899, 12, 1);
        day.isBefore(LocalDate.of(2200, 2, 1));
        day = day.plusDays(1)) {
      String text = day.toString();
      boolean within = day.getYear() >= 1900 && day.getYear() <= 2199;
      assertThat(Letters.isDate(text)).as(text).isEqualTo(within);
      assertThat(Letters.date(text)).isEqualTo(day);
    }
    assertThat(Letters.isDate("2100-02-29")).isFalse();
    assertThat(Letters.isDate("2000-02-29")).isTrue();
  }

  @Test
  void aDateThatIsNoneIsNeverRead() {
    Random random = new Random(11);
    for (int i = 0; i < 100_000; i++) {
      String text =
          "%04d-%02d-%02d"
              .formatted(1880 + random.nextInt(340), random.nextInt(20), random.nextInt(40));
      assertThat(Letters.isDate(text) && !exists(text)).as(text).isFalse();
    }
  }

  private static boolean exists(String text) {
    try {
      LocalDate.parse(text);
      return true;
    } catch (DateTimeException e) {
      return false;
    }
  }

  private static void agree(Predicate<String> quick, Pattern pattern, String letters) {
    Random random = new Random(7);
    int allowed = 0;
    for (int i = 0; i < 200_000; i++) {
      StringBuilder text = new StringBuilder();
      int length = random.nextInt(12);
      for (int at = 0; at < length; at++) {
        text.append(letters.charAt(random.nextInt(letters.length())));
      }
      boolean expected = pattern.matcher(text).matches();
      allowed += expected ? 1 : 0;
      assertThat(quick.test(text.toString())).as("%s", text).isEqualTo(expected);
    }
    assertThat(allowed).isLessThan(200_000);
  }

  private static Pattern pattern(Shape<?> shape, String name) {
    String pattern =
        SchemaPage.of(shape, "id", "title", "description")
            .at("/$defs/" + name + "/pattern")
            .stringValue();
    return Pattern.compile(pattern);
  }
}
