package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.rules.SampleTreatments;
import org.junit.jupiter.api.Test;

/** The lower incisors on the dentist's sheet, by the last film that shows them. */
class LowerIncisorsWatchedTest {

  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8]%s}}""";

  private static final String TIP = ", \"Li\": [57, 30]";

  @Test
  void theLastFilmThatShowsThemIsNamed() {
    String earlier = FILM.formatted("F1", "2026-01-12", TIP);
    assertThat(sheet(earlier)).containsPattern("L1-Md [0-9.]+° \\(usual .*?\\) on the last film");
    assertThat(sheet(earlier + ", " + FILM.formatted("F2", "2026-06-01", "")))
        .containsPattern(
            "L1-Md [0-9.]+° \\(usual .*?\\) on the film of 2026-01-12,"
                + " not measured on the last")
        .doesNotContain("no film measured");
    assertThat(sheet(FILM.formatted("F2", "2026-06-01", ""))).contains("no film measured");
  }

  private static String sheet(String films) {
    return Written.text(
        Written.html(SampleTreatments.changed("{\"/films\": [" + films + "]}"), Audience.DENTIST));
  }
}
