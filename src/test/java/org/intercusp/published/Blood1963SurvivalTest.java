package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.intercusp.analysis.agreement.Followed;
import org.intercusp.analysis.agreement.Followed.Ending;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.SurvivalCurve;
import org.junit.jupiter.api.Test;

/**
 * Product-limit curve of the 6-mercaptopurine arm, Blood 1963;21:699-716: 21 patients, weeks of
 * remission (the data are in every text on the subject; from memory). Shares to half of their
 * fourth digit. Greenwood errors and log-log limits: computed once with another library,
 * statsmodels 0.15.0, to four digits.
 */
class Blood1963SurvivalTest {

  private static final double[] EVENTS = {6, 6, 6, 7, 10, 13, 16, 22, 23};
  private static final double[] CENSORED = {6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35};
  private static final double[] TIMES = {6, 7, 10, 13, 16, 22, 23};
  private static final double[] SHARES = {.8571, .8067, .7529, .6902, .6275, .5378, .4482};
  private static final double[] ERRORS = {.0764, .0869, .0963, .1068, .1141, .1282, .1346};
  private static final double[] LOW = {.6197, .5631, .5032, .4316, .3675, .2678, .1881};
  private static final double[] HIGH = {.9516, .9228, .8894, .8491, .8049, .7468, .6801};

  private static final SurvivalCurve CURVE = SurvivalCurve.of(patients());

  @Test
  void sharesErrorsAndLimits() {
    assertThat(CURVE.steps()).hasSize(TIMES.length);
    for (int i = 0; i < TIMES.length; i++) {
      SurvivalCurve.Step step = CURVE.steps().get(i);
      assertThat(step.time()).isEqualTo(TIMES[i]);
      assertThat(step.survival()).isCloseTo(SHARES[i], within(0.00005));
      assertThat(step.standardError()).isCloseTo(ERRORS[i], within(0.00005));
      Interval interval = step.interval(0.95).result().orElseThrow();
      assertThat(interval.low()).isCloseTo(LOW[i], within(0.00005));
      assertThat(interval.high()).isCloseTo(HIGH[i], within(0.00005));
    }
    assertThat(CURVE.median()).contains(23.0);
    assertThat(CURVE.at(5.9)).isEqualTo(1);
    assertThat(CURVE.at(6)).isCloseTo(.8571, within(0.00005));
    assertThat(CURVE.at(400)).isCloseTo(.4482, within(0.00005));
  }

  @Test
  void eventsComeBeforeCensoringsOfTheSameWeek() {
    assertThat(CURVE.steps().get(0).atRisk()).isEqualTo(21);
    assertThat(CURVE.steps().get(2).atRisk()).isEqualTo(15);
  }

  @Test
  void theOrderOfPatientsDoesNotMatter() {
    List<Followed> shuffled = new ArrayList<>(patients());
    Collections.shuffle(shuffled, new Random(3));
    assertThat(SurvivalCurve.of(shuffled)).isEqualTo(CURVE);
  }

  @Test
  void nobodyAndEverybody() {
    assertThat(SurvivalCurve.of(List.of()).steps()).isEmpty();
    assertThat(SurvivalCurve.of(List.of()).at(10)).isEqualTo(1);
    SurvivalCurve all = SurvivalCurve.of(List.of(new Followed(3, Ending.EVENT)));
    assertThat(all.at(3)).isZero();
    assertThat(all.steps().get(0).standardError()).isZero();
    assertThat(all.steps().get(0).interval(0.95).reason()).contains("all have had the event");
  }

  private static List<Followed> patients() {
    List<Followed> patients = new ArrayList<>();
    for (double week : EVENTS) {
      patients.add(new Followed(week, Ending.EVENT));
    }
    for (double week : CENSORED) {
      patients.add(new Followed(week, Ending.CENSORED));
    }
    return patients;
  }
}
