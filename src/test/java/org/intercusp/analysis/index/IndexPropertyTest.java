package org.intercusp.analysis.index;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;
import org.intercusp.treatment.OutcomeFindings.Buccal.Transverse;
import org.intercusp.treatment.OutcomeFindings.OverbiteContact;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;

/** What holds for any mouth: mirrors, monotone scores, numbers however written, no crash. */
class IndexPropertyTest {

  private static final int MOUTHS = 1500;

  @Test
  void aMirrorSwapsTheSidesAndChangesNoScore() {
    forMouths(
        (seed) -> {
          OutcomeFindings own = any(seed).findings();
          OutcomeFindings other = any(seed).mirror().findings();
          OutcomeScores.Par a = PeerAssessment.components(own).result().orElseThrow();
          OutcomeScores.Par b = PeerAssessment.components(other).result().orElseThrow();
          assertThat(b.buccalLeft()).isEqualTo(a.buccalRight());
          assertThat(b.buccalRight()).isEqualTo(a.buccalLeft());
          for (ParWeighting weighting : ParWeighting.values()) {
            assertThat(weighting.score(b)).isEqualTo(weighting.score(a));
          }
          assertThat(DentalHealth.of(other)).isEqualTo(DentalHealth.of(own));
          assertThat(icon(other)).isEqualTo(icon(own));
        });
  }

  @Test
  void aWorseTraitNeverLowersAScore() {
    for (Consumer<Mouth> worse : worsenings()) {
      forMouths(
          seed -> {
            OutcomeFindings before = any(seed).findings();
            Mouth mouth = any(seed);
            worse.accept(mouth);
            OutcomeFindings after = mouth.findings();
            for (ParWeighting weighting : ParWeighting.values()) {
              assertThat(par(after, weighting)).isGreaterThanOrEqualTo(par(before, weighting));
            }
            assertThat(DentalHealth.of(after).grade())
                .isGreaterThanOrEqualTo(DentalHealth.of(before).grade());
            assertThat(icon(after)).isGreaterThanOrEqualTo(icon(before));
          });
    }
  }

  /** Readings moved at random within the standard uncertainty never leave the stated range. */
  @Test
  void noReadingWithinTheErrorLeavesTheRange() {
    double u = ReadingError.RULER.standardUncertainty();
    forMouths(
        seed -> {
          Reread stated = Reread.of(outcome(any(seed)), ReadingError.RULER);
          SplittableRandom random = new SplittableRandom(seed + 1);
          Mouth moved = any(seed);
          moved.overjet = moved(moved.overjet, random, u);
          moved.overbite = moved(moved.overbite, random, u);
          moved.crowding = moved(moved.crowding, random, u);
          moved.spacing = moved(moved.spacing, random, u);
          moved.upper = moved(moved.upper, random, u);
          moved.lower = moved(moved.lower, random, u);
          Scored again = Scored.of(outcome(moved));
          for (ParWeighting weighting : ParWeighting.values()) {
            assertWithin(again.par(weighting), stated.par(weighting));
          }
          assertWithin(again.icon().map(ComplexityIndex::score), stated.icon());
        });
  }

  private static void assertWithin(Reckoned<Integer> score, Reckoned<ScoreRange> stated) {
    ScoreRange range = stated.result().orElseThrow();
    assertThat(score.result().orElseThrow()).isBetween(range.lowest(), range.highest());
  }

  private static List<Contact> moved(List<Contact> contacts, SplittableRandom random, double u) {
    return contacts.stream()
        .map(
            each ->
                each instanceof Contact.Displaced displaced
                    ? new Contact.Displaced(
                        Length.of(moved(displaced.by().value().toString(), random, u)).absolute())
                    : each)
        .toList();
  }

  private static String moved(String reading, SplittableRandom random, double u) {
    double by = random.nextDouble(-u, u);
    return new BigDecimal(reading).add(BigDecimal.valueOf(by)).toString();
  }

  @Test
  void theSameNumberWrittenOtherwiseScoresTheSame() {
    forMouths(
        seed -> {
          Mouth rewritten = any(seed);
          rewritten.overjet += "000";
          rewritten.overbite += "0";
          rewritten.cover += "00";
          rewritten.shift += "0";
          rewritten.displacement += "00";
          rewritten.crowding = new BigDecimal(rewritten.crowding).setScale(9).toString();
          assertThat(Scored.of(outcome(rewritten))).isEqualTo(Scored.of(outcome(any(seed))));
        });
  }

  @Test
  void everyFigureHasAValueOrAReason() {
    SplittableRandom random = new SplittableRandom(11);
    for (int i = 0; i < MOUTHS; i++) {
      Mouth start = any(random.nextLong());
      if (random.nextInt(3) == 0) {
        List<Contact> upper = new ArrayList<>(start.upper);
        upper.set(random.nextInt(5), new Contact.Unmeasured());
        start.upper = upper;
      }
      List<Figure> figures =
          IndexFigures.figures(
              List.of(
                  Mouth.outcome("s", Phase.START, start.findings(), null),
                  Mouth.outcome("e", Phase.END, new Mouth().findings(), null),
                  Mouth.outcome("r", Phase.RETENTION_12_MONTHS, null, null)));
      assertThat(figures).hasSizeGreaterThan(20);
      assertThat(figures).allMatch(figure -> figure.value() != null || !figure.note().isBlank());
    }
  }

  @Test
  void givenScoresThatDifferFromTheFindingsAreNamed() {
    Mouth mouth = new Mouth();
    mouth.overjet = "7.5";
    OutcomeScores.Par par = new OutcomeScores.Par(0, 0, 0, 0, 2, 0, 0);
    OutcomeScores.Icon icon = new OutcomeScores.Icon(1, 0, 0, 0, 0, 1);
    Outcome wrong =
        Mouth.outcome("o", Phase.START, mouth.findings(), new OutcomeScores(par, "5a", icon));
    assertThat(Scored.differences(wrong))
        .containsExactly(
            new Scored.Difference(List.of("par", "overjet"), "2", "3", PeerAssessment.SOURCE),
            new Scored.Difference(List.of("dhc"), "5a", "4a", DentalHealth.SOURCE),
            new Scored.Difference(List.of("icon", "buccalLeft"), "1", "0", ComplexityIndex.SOURCE));
    OutcomeScores right = new OutcomeScores(new OutcomeScores.Par(0, 0, 0, 0, 3, 0, 0), "4a", null);
    assertThat(Scored.differences(Mouth.outcome("o", Phase.START, mouth.findings(), right)))
        .isEmpty();
    assertThat(Scored.differences(Mouth.outcome("o", Phase.START, null, right))).isEmpty();
  }

  @Test
  void scoresAloneGiveTheSameFiguresAsFindings() {
    Mouth mouth = any(4);
    OutcomeScores scores =
        new OutcomeScores(
            PeerAssessment.components(mouth.findings()).result().orElseThrow(),
            DentalHealth.of(mouth.findings()).code(),
            ComplexityIndex.components(mouth.findings()));
    List<Figure> scored = IndexFigures.figures(Mouth.outcome("o", Phase.START, null, scores));
    List<Figure> found = IndexFigures.figures(outcome(mouth));
    assertThat(withoutBorderline(scored))
        .extracting(Figure::value)
        .isEqualTo(withoutBorderline(found).stream().map(Figure::value).toList());
    assertThat(scored)
        .filteredOn(figure -> figure.name().endsWith("-borderline"))
        .hasSize(2)
        .allMatch(figure -> figure.value() == null && figure.note().contains("findings"));
  }

  private static List<Figure> withoutBorderline(List<Figure> figures) {
    return figures.stream().filter(each -> !each.name().endsWith("-borderline")).toList();
  }

  private static List<Consumer<Mouth>> worsenings() {
    return List.of(
        mouth -> mouth.overjet = further(mouth.overjet),
        mouth -> mouth.cover = plus(mouth.cover, "0.4"),
        mouth -> mouth.centreline = plus(mouth.centreline, "0.3"),
        mouth -> mouth.displacement = plus(mouth.displacement, "0.7"),
        mouth -> mouth.lateralOpenBite = plus(mouth.lateralOpenBite, "0.7"),
        mouth -> mouth.shift = plus(mouth.shift, "0.7"),
        mouth -> mouth.crowding = plus(mouth.crowding, "1.7"),
        mouth -> mouth.spacing = plus(mouth.spacing, "1.7"),
        mouth -> mouth.crossbite = true,
        mouth -> mouth.lingualCrossbite = true,
        mouth -> mouth.anteriorCrossbite = Math.min(6, mouth.anteriorCrossbite + 1),
        mouth -> mouth.lips = Lips.INCOMPETENT,
        mouth -> mouth.speech = true,
        mouth -> mouth.mastication = true,
        mouth -> mouth.missing = Mouth.teeth("12", "22", "24"),
        mouth -> mouth.impeded = Mouth.teeth("13"),
        mouth -> mouth.cleft = true,
        mouth -> mouth.aesthetic = Math.min(10, mouth.aesthetic + 1),
        mouth -> mouth.contact = OverbiteContact.TRAUMA,
        mouth -> mouth.upper = Collections.nCopies(5, new Contact.Impacted()),
        mouth -> mouth.left = new Buccal(AnteroPosterior.HALF, true, Transverse.SCISSOR_SEVERAL));
  }

  private static String further(String overjet) {
    return overjet.startsWith("-") ? plus(overjet, "-0.7") : plus(overjet, "0.7");
  }

  private static String plus(String number, String more) {
    return new BigDecimal(number).add(new BigDecimal(more)).toString();
  }

  private static void forMouths(Consumer<Long> check) {
    SplittableRandom seeds = new SplittableRandom(20260302);
    for (int i = 0; i < MOUTHS; i++) {
      check.accept(seeds.nextLong());
    }
  }

  private static Mouth any(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Mouth mouth = new Mouth();
    mouth.overjet = tenths(random, -50, 130);
    mouth.overbite = tenths(random, -50, 80);
    mouth.cover = tenths(random, 0, 20);
    mouth.contact = pick(random, OverbiteContact.values());
    mouth.edgeToEdge = random.nextInt(3);
    mouth.anteriorCrossbite = random.nextInt(3);
    mouth.lateralOpenBite = tenths(random, 0, 50);
    mouth.centreline = tenths(random, 0, 20);
    mouth.upper = contacts(random);
    mouth.lower = contacts(random);
    mouth.displacement = tenths(random, 0, 50);
    mouth.right = buccal(random);
    mouth.left = buccal(random);
    mouth.crossbite = random.nextBoolean();
    mouth.shift = tenths(random, 0, 30);
    mouth.lips = pick(random, Lips.values());
    mouth.speech = random.nextBoolean();
    mouth.mastication = random.nextBoolean();
    mouth.missing = random.nextInt(4) == 0 ? Mouth.teeth("12", "35", "34") : List.of();
    mouth.tipped = random.nextInt(6) == 0 ? Mouth.teeth("47") : List.of();
    mouth.supernumerary = random.nextInt(8) == 0;
    mouth.aesthetic = 1 + random.nextInt(10);
    mouth.crowding = tenths(random, 0, 180);
    mouth.spacing = tenths(random, 0, 100);
    return mouth;
  }

  private static List<Contact> contacts(SplittableRandom random) {
    List<Contact> contacts = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      contacts.add(
          random.nextInt(10) == 0
              ? new Contact.Impacted()
              : new Contact.Displaced(Length.of(tenths(random, 0, 90))));
    }
    return contacts;
  }

  private static Buccal buccal(SplittableRandom random) {
    return new Buccal(
        pick(random, AnteroPosterior.values()),
        random.nextBoolean(),
        pick(random, Transverse.values()));
  }

  private static <T> T pick(SplittableRandom random, T[] values) {
    return values[random.nextInt(values.length)];
  }

  private static String tenths(SplittableRandom random, int from, int to) {
    return BigDecimal.valueOf(random.nextInt(from, to + 1), 1).toString();
  }

  private static Outcome outcome(Mouth mouth) {
    return Mouth.outcome("o", Phase.START, mouth.findings(), null);
  }

  private static int par(OutcomeFindings findings, ParWeighting weighting) {
    return weighting.score(PeerAssessment.components(findings).result().orElseThrow());
  }

  private static int icon(OutcomeFindings findings) {
    return ComplexityIndex.score(ComplexityIndex.components(findings));
  }
}
