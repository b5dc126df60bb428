package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** How long a page is, and what is taken for the place where one ended. */
class PageMarkTest {

  @ParameterizedTest
  @CsvSource({"0, 0", "1, 1", "200, 200", "201, 200", "999999999, 200"})
  void aPageHasABound(String count, int length) {
    assertThat(PageMark.length(List.of(count))).isEqualTo(length);
  }

  @Test
  void withoutACountItIsTheUsualOne() {
    assertThat(PageMark.length(List.of())).isEqualTo(50);
    assertThatThrownBy(() -> PageMark.length(List.of("1", "2"))).isInstanceOf(Fault.class);
    assertThatThrownBy(() -> PageMark.length(List.of("1000000000"))).isInstanceOf(Fault.class);
  }

  @Test
  void whatWasWrittenIsReadAgainAndOnlyForSuchAList() {
    PageMark mark = new PageMark(17, List.of("3", "Patient", "a-1.b"));
    assertThat(PageMark.read(mark.write(), 3)).isEqualTo(mark);
    assertThatThrownBy(() -> PageMark.read(mark.write(), 1)).isInstanceOf(Fault.class);
  }

  @ParameterizedTest
  @ValueSource(strings = {"17~a b", "17~a'--", "x~a", "-1~a", "1234567890123456789~a", "17~", "17"})
  void nothingElseIsAPlace(String plain) {
    String text =
        Base64.getUrlEncoder()
            .withoutPadding()
            .encodeToString(plain.getBytes(StandardCharsets.UTF_8));
    assertThatThrownBy(() -> PageMark.read(text, 1)).isInstanceOf(Fault.class);
    assertThatThrownBy(() -> PageMark.read(plain + "\u00e9", 1)).isInstanceOf(Fault.class);
  }
}
