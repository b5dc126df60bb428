package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.rule.Limits;
import org.junit.jupiter.api.Test;

/** The judge holds a treatment against the limits of the clinic, and against the day it is told. */
class OwnLimitsTest {

  /** Registered at 84.62 % of the path, which nobody accepted; the usual limit is 70 %. */
  private static final Path FAR = Path.of("sample-bundles/unsafe-bite-refused.bundle.json");

  private static List<Issue> stopping(Conformance judge) throws IOException {
    return Judges.stopping(judge.validate(Files.readAllBytes(FAR), Format.JSON));
  }

  private static Conformance judge(String share) {
    Limits own = Limits.named(Map.of("share-of-path", new BigDecimal(share)));
    return new Conformance(Judges.FHIR, GuardLimits.DEFAULT, new Examiner(own), Clock.systemUTC());
  }

  @Test
  void whatAClinicsOwnCheckLetsPassMayLeave() throws IOException {
    assertThat(stopping(Judges.SHARED))
        .anyMatch(issue -> issue.rule().equals("bite-share-exceeded"));
    assertThat(stopping(judge("0.85")))
        .noneMatch(issue -> issue.rule().equals("bite-share-exceeded"));
  }

  @Test
  void theDayItIsToldCounts() throws IOException {
    LocalDate before = LocalDate.parse("2020-01-01");
    assertThat(
            Judges.stopping(
                Judges.SHARED.on(before).validate(Files.readAllBytes(FAR), Format.JSON)))
        .anyMatch(issue -> issue.rule().equals("date-order"));
    assertThat(stopping(Judges.SHARED)).noneMatch(issue -> issue.rule().equals("date-order"));
  }
}
