package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.intercusp.analysis.agreement.CumulativeIncidence;
import org.intercusp.analysis.agreement.Followed;
import org.intercusp.analysis.agreement.Followed.Ending;
import org.intercusp.analysis.agreement.SurvivalCurve;
import org.junit.jupiter.api.Test;

/**
 * Aalen-Johansen estimate, from memory of Scand J Stat 1978;5:141-150. Twelve invented cases;
 * estimates computed once with another library, statsmodels 0.15.0, to its sixth digit. The
 * variance has no published table here: it must fall together with Greenwood's where nothing
 * competes and with the binomial where nobody is censored (identities, to rounding of binary
 * numbers).
 */
class ScandJStat1978IncidenceTest {

  private static final int[] TIMES = {1, 2, 2, 3, 4, 4, 5, 6, 7, 8, 9, 10};
  private static final int[] ENDINGS = {1, 2, 1, 0, 1, 2, 2, 1, 0, 1, 2, 0};

  @Test
  void estimatesOfBothEndings() {
    CumulativeIncidence event = CumulativeIncidence.of(cases(1));
    assertThat(event.steps())
        .extracting(CumulativeIncidence.Step::time)
        .containsExactly(1.0, 2.0, 4.0, 6.0, 8.0);
    assertThat(event.at(0.5)).isZero();
    assertThat(event.at(1)).isCloseTo(0.083333, within(5e-7));
    assertThat(event.at(3)).isCloseTo(0.166667, within(5e-7));
    assertThat(event.at(4)).isCloseTo(0.260417, within(5e-7));
    assertThat(event.at(6)).isCloseTo(0.354167, within(5e-7));
    assertThat(event.at(10)).isCloseTo(0.479167, within(5e-7));
    assertThat(CumulativeIncidence.of(cases(2)).at(10)).isCloseTo(0.395833, within(5e-7));
  }

  @Test
  void oneLessTheCurveOverstatesAsSoonAsSomethingCompetes() {
    assertThat(1 - SurvivalCurve.of(cases(1)).at(10))
        .isGreaterThan(CumulativeIncidence.of(cases(1)).at(10) + 0.05);
  }

  @Test
  void withoutCompetitionItIsOneLessTheCurveWithGreenwoodsError() {
    List<Followed> alone = new ArrayList<>(cases(1));
    alone.replaceAll(
        each ->
            each.ending() == Ending.COMPETING ? new Followed(each.time(), Ending.CENSORED) : each);
    SurvivalCurve curve = SurvivalCurve.of(alone);
    CumulativeIncidence incidence = CumulativeIncidence.of(alone);
    for (int i = 0; i < curve.steps().size(); i++) {
      assertThat(incidence.steps().get(i).incidence())
          .isCloseTo(1 - curve.steps().get(i).survival(), within(1e-12));
      assertThat(incidence.steps().get(i).standardError())
          .isCloseTo(curve.steps().get(i).standardError(), within(1e-12));
    }
  }

  @Test
  void withNobodyCensoredItIsASimpleShareWithItsBinomialError() {
    SplittableRandom random = new SplittableRandom(5);
    List<Followed> cases = new ArrayList<>();
    int events = 0;
    for (int i = 0; i < 40; i++) {
      Ending ending = random.nextBoolean() ? Ending.EVENT : Ending.COMPETING;
      events += ending == Ending.EVENT ? 1 : 0;
      cases.add(new Followed(random.nextInt(1, 15), ending));
    }
    double share = events / 40.0;
    CumulativeIncidence found = CumulativeIncidence.of(cases);
    CumulativeIncidence.Step last = found.steps().get(found.steps().size() - 1);
    assertThat(last.incidence()).isCloseTo(share, within(1e-12));
    assertThat(last.standardError()).isCloseTo(Math.sqrt(share * (1 - share) / 40), within(1e-12));
  }

  private static List<Followed> cases(int event) {
    List<Followed> cases = new ArrayList<>();
    for (int i = 0; i < TIMES.length; i++) {
      Ending ending =
          ENDINGS[i] == 0 ? Ending.CENSORED : ENDINGS[i] == event ? Ending.EVENT : Ending.COMPETING;
      cases.add(new Followed(TIMES[i], ending));
    }
    return cases;
  }
}
