package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Which drawings a treatment's page has, and of what. */
class PicturesTest {

  private static Treatment filmed(String... jaws) throws IOException {
    ObjectNode file;
    try (var in = PicturesTest.class.getResourceAsStream("/treatment/whole.json")) {
      file = (ObjectNode) new JsonMapper().readTree(in);
    }
    ArrayNode films = (ArrayNode) file.path("films");
    ObjectNode one = (ObjectNode) films.get(0).deepCopy();
    films.removeAll();
    for (String jaw : jaws) {
      String[] words = jaw.split(" ", -1);
      films.add(one.deepCopy().put("id", words[0]).put("takenOn", words[1]).put("jaw", words[2]));
    }
    byte[] bytes = file.toString().getBytes(StandardCharsets.UTF_8);
    return ((ReadResult.Accepted) new TreatmentReader().read(bytes)).treatment();
  }

  private static List<Pictures.Picture> films(Treatment treatment) {
    return Pictures.of(treatment, new Examiner().examine(treatment, LocalDate.of(2026, 3, 2)))
        .films();
  }

  @Test
  void theLaterFilmLiesOnTheEarlierWhateverTheirOrderInTheFile() throws IOException {
    List<Pictures.Picture> films =
        films(filmed("late 2026-03-01 habitual", "early 2025-03-01 habitual"));
    assertThat(films)
        .extracting(Pictures.Picture::title)
        .containsExactly("Film of 2025-03-01", "Film of 2026-03-01", "First and last film");
    assertThat(films.get(2).svg()).contains("Films of 2025-03-01 and 2026-03-01 superimposed");
  }

  @Test
  void filmsAreLaidOnOneAnotherThatTheFiguresCompare() throws IOException {
    List<Pictures.Picture> films =
        films(filmed("a 2025-03-01 habitual", "b 2025-09-01 habitual", "c 2026-03-01 in-bite"));
    assertThat(films.get(3).svg()).contains("Films of 2025-03-01 and 2025-09-01 superimposed");
  }
}
