package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Share;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** What must hold for any treatment, on seeded invented ones. */
@Tag("steady")
class ExaminerPropertyTest {

  private static final long SEED = 20260720L;
  private static final LocalDate DAY = LocalDate.of(2026, 7, 20);
  private static final List<Treatment> MANY =
      new TreatmentGenerator().treatments(150, SEED).toList();

  @Test
  void generatedTreatmentsHaveFiguresThatAreNumbersOrSayWhyNot() {
    for (Treatment treatment : MANY) {
      Examination examination = examine(treatment);
      assertThat(examination.figures()).isNotEmpty().allMatch(ExaminerPropertyTest::isWhole);
    }
    assertThat(MANY.stream().map(ExaminerPropertyTest::codes).distinct().count())
        .as("different findings among the treatments")
        .isGreaterThan(10);
  }

  @Test
  void shakenTreatmentsNeverCrashARule() {
    Random random = new Random(SEED);
    int read = 0;
    for (int i = 0; i < 3000; i++) {
      JsonNode tree = JsonTreatments.tree(MANY.get(i % MANY.size()));
      JsonTreatments.shake(tree, random, 0.002 + 0.01 * random.nextDouble());
      Optional<Treatment> treatment = JsonTreatments.read(tree);
      if (treatment.isPresent()) {
        read++;
        Examination examination = examine(treatment.get());
        assertThat(examination.figures()).allMatch(ExaminerPropertyTest::isWhole);
      }
    }
    assertThat(read).as("shaken treatments that are still readable").isGreaterThan(200);
  }

  @Test
  void theMirrorImageHasTheSameFindingsAndFigures() {
    for (Treatment treatment : MANY) {
      JsonNode mirror = JsonTreatments.mirrored(JsonTreatments.tree(treatment), "");
      Examination seen = examine(JsonTreatments.read(mirror).orElseThrow());
      Examination real = examine(treatment);
      assertThat(places(seen)).isEqualTo(places(real));
      assertThat(numbers(seen)).isEqualTo(numbers(real));
    }
  }

  @Test
  void theMirrorIsAMirror() {
    for (Treatment treatment : MANY) {
      JsonNode once = JsonTreatments.mirrored(JsonTreatments.tree(treatment), "");
      assertThat(JsonTreatments.read(once)).isPresent().get().isNotEqualTo(treatment);
      assertThat(JsonTreatments.read(JsonTreatments.mirrored(once, ""))).contains(treatment);
    }
  }

  @Test
  void noVerdictDependsOnHowANumberIsWritten() {
    for (Treatment treatment : MANY) {
      JsonNode rewritten = JsonTreatments.rewritten(JsonTreatments.tree(treatment), "");
      assertThat(rewritten).isNotEqualTo(JsonTreatments.tree(treatment));
      Examination again = examine(JsonTreatments.read(rewritten).orElseThrow());
      Examination first = examine(treatment);
      assertThat(places(again)).isEqualTo(places(first));
      assertThat(numbers(again)).isEqualTo(numbers(first));
      assertThat(again.findings().stream().map(j -> j.finding().message()))
          .containsExactlyElementsOf(
              first.findings().stream().map(j -> j.finding().message()).toList());
      assertThat(again.findings().stream().map(j -> j.finding().values()))
          .containsExactlyElementsOf(
              first.findings().stream().map(j -> j.finding().values()).toList());
    }
  }

  @Test
  void theShareOfThePathDoesNotDependOnTheScaleOfTheReadings() {
    Random random = new Random(SEED);
    for (int i = 0; i < 500; i++) {
      BigDecimal[] readings = readings(random);
      BigDecimal factor = new BigDecimal(1 + random.nextInt(40)).movePointLeft(1);
      ConstructionBite once = bite(readings, BigDecimal.ONE);
      ConstructionBite scaled = bite(readings, factor);
      assertThat(scaled.usesMoreThan(Share.of("0.70")))
          .isEqualTo(once.usesMoreThan(Share.of("0.7")));
      assertThat(scaled.share().map(Share::asDouble)).isEqualTo(once.share().map(Share::asDouble));
    }
  }

  @Test
  void movingTheBiteForwardNeverMakesItSafer() {
    Random random = new Random(SEED);
    for (int i = 0; i < 500; i++) {
      BigDecimal[] readings = readings(random);
      boolean before = bite(readings, BigDecimal.ONE).usesMoreThan(Share.of("0.70"));
      readings[2] = readings[2].add(new BigDecimal("0.1"));
      boolean after = bite(readings, BigDecimal.ONE).usesMoreThan(Share.of("0.70"));
      assertThat(after || !before).isTrue();
    }
  }

  private static BigDecimal[] readings(Random random) {
    BigDecimal retruded = tenths(random, 30);
    BigDecimal habitual = retruded.add(tenths(random, 20));
    BigDecimal registered = habitual.add(tenths(random, 100));
    return new BigDecimal[] {retruded, habitual, registered, registered.add(tenths(random, 80))};
  }

  private static BigDecimal tenths(Random random, int most) {
    return new BigDecimal(random.nextInt(most)).movePointLeft(1);
  }

  private static ConstructionBite bite(BigDecimal[] readings, BigDecimal factor) {
    Bite bite = SampleTreatments.base().bites().get(0);
    Bite read =
        new Bite(
            bite.id(),
            bite.recordedOn(),
            bite.overjetHabitual(),
            bite.overbiteHabitual(),
            bite.overjetInBite(),
            new Length(readings[0].multiply(factor)),
            new Length(readings[1].multiply(factor)),
            new Length(readings[2].multiply(factor)),
            new Length(readings[3].multiply(factor)),
            bite.incisalClearance(),
            null,
            null,
            null,
            bite.upperIncisorHeight(),
            bite.lowerIncisorHeight(),
            null,
            null,
            null,
            null);
    return ConstructionBite.of(read, ReadingError.RULER);
  }

  private static boolean isWhole(Figure figure) {
    return figure.value() != null || (figure.note() != null && !figure.note().isBlank());
  }

  private static List<String> codes(Treatment treatment) {
    return examine(treatment).findings().stream().map(j -> j.finding().code()).toList();
  }

  private static Map<String, Long> places(Examination examination) {
    return examination.findings().stream()
        .map(Judged::finding)
        .map(finding -> finding.severity() + " " + finding.code() + " " + finding.pointer())
        .collect(Collectors.groupingBy(text -> text, Collectors.counting()));
  }

  private static List<String> numbers(Examination examination) {
    return examination.figures().stream()
        .filter(figure -> !figure.name().contains("buccal"))
        .map(
            figure ->
                figure.name()
                    + " "
                    + (figure.value() instanceof Value.Numeric numeric
                        ? numeric.number().stripTrailingZeros().toPlainString()
                        : figure.value() == null ? "-" : figure.value().shown()))
        .toList();
  }

  private static Examination examine(Treatment treatment) {
    return new Examiner().examine(treatment, treatment.asOf() == null ? DAY : treatment.asOf());
  }
}
