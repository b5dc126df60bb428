package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Which drawings a treatment's page has, and of what. */
class PicturesTest {

  private static final String ENDED =
      """
      {"/completion": {"status": "patient-stopped", "reason": "non-wear",
       "decidedOn": "2026-07-20", "lastAttendedOn": "2026-07-13"}}""";

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

  private static Treatment sample(String change) throws IOException {
    ObjectNode file =
        (ObjectNode)
            new JsonMapper()
                .readTree(
                    Files.readAllBytes(Path.of("sample-bundles/stage-change.treatment.json")));
    switch (change) {
      case "completed" ->
          file.putObject("completion")
              .put("status", "completed")
              .put("decidedOn", "2026-08-31")
              .put("lastAttendedOn", "2026-08-10");
      case "active" -> {
        ((ArrayNode) file.path("appliances")).remove(1);
        ((ObjectNode) file.path("stages").get(1)).remove("applianceId");
      }
      default -> {}
    }
    byte[] bytes = file.toString().getBytes(StandardCharsets.UTF_8);
    return ((ReadResult.Accepted) new TreatmentReader().read(bytes)).treatment();
  }

  private static String appliances(Treatment treatment) {
    Pictures all =
        Pictures.of(treatment, new Examiner().examine(treatment, LocalDate.of(2026, 8, 31)));
    return Stream.concat(all.appliance().stream(), all.earlier().stream())
        .map(Pictures.Picture::svg)
        .collect(Collectors.joining());
  }

  /** The blocks were put away when the plate came. */
  @Test
  void onlyBlocksThatAreWornAreTrimmedNext() throws IOException {
    assertThat(appliances(sample("active"))).contains("Next visit: trim 0.5 mm");
    assertThat(appliances(sample("as it is")))
        .contains("Bite blocks from the side")
        .doesNotContain("Next visit");
  }

  @Test
  void nothingIsTrimmedOnceTreatmentHasEnded() throws IOException {
    assertThat(appliances(sample("completed"))).doesNotContain("Next visit");
    Treatment worn = SampleTreatments.changed(ENDED);
    assertThat(appliances(worn)).contains("Bite blocks").doesNotContain("Next visit");
    assertThat(appliances(SampleTreatments.base())).contains("Next visit: trim");
  }

  @Test
  void thePathShowsTheLimitOfTheClinic() {
    Treatment base = SampleTreatments.base();
    String usual = bite(base, new Examiner());
    assertThat(usual).contains("70 % of the path").contains("x1=\"99.00\"");
    String careful =
        bite(base, new Examiner(Limits.named(Map.of("share-of-path", new BigDecimal("0.60")))));
    assertThat(careful)
        .contains("60 % of the path", "registered, 61.5 %")
        .contains("x1=\"87.00\"")
        .doesNotContain("70 %");
  }

  private static String bite(Treatment treatment, Examiner examiner) {
    return Pictures.of(treatment, examiner.examine(treatment, LocalDate.of(2026, 7, 20)))
        .appliance()
        .get(0)
        .svg();
  }
}
