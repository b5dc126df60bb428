package org.intercusp.rules.appliance;

import java.math.BigDecimal;
import java.util.Comparator;
import org.intercusp.analysis.film.Cephalometry;
import org.intercusp.analysis.film.Measurement;
import org.intercusp.analysis.film.Norm;
import org.intercusp.finding.Severity;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Film;

/** Lower incisors that already stand forward are capped. */
final class ApplianceCapping implements Rule {

  static final String CODE = "appliance-capping";
  private static final BigDecimal MOST = BigDecimal.valueOf(99);

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("L1-Md of the last film before a twin block was ordered with its capping")
        .limit("L1-Md at most 99 deg (mean 93 and one deviation of 6) without incisal capping")
        .about("/appliances/*/incisalCapping", ApplianceAt.parameter("incisal-capping"))
        .remedy("Prescribe acrylic over the lower incisor edges.")
        .source(Norm.SOURCE)
        .samples(
            Sample.failing(
                "/appliances/0/incisalCapping",
                "{\"/appliances/0/incisalCapping\": false, \"/films\": ["
                    + FILM.formatted("54.0")
                    + "]}"),
            Sample.passing(
                "{\"/appliances/0/incisalCapping\": false, \"/films\": ["
                    + FILM.formatted("53.4")
                    + "]}"));
  }

  /** Mandibular plane level; the lower incisor's tip lies so far in front of its apex. */
  private static final String FILM =
      """
      {"id": "F1", "takenOn": "2026-01-12", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [%s, 30]}}""";

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      if (!at.twinBlock() || at.appliance().incisalCapping()) {
        continue;
      }
      about.treatment().films().stream()
          .filter(film -> film.repeatOf() == null)
          .filter(film -> !film.takenOn().isAfter(at.appliance().orderedOn()))
          .sorted(Comparator.comparing(Film::takenOn).reversed())
          .map(Cephalometry::of)
          .filter(film -> film.value(Measurement.L1_MD).result().isPresent())
          .findFirst()
          .filter(film -> angle(film).compareTo(MOST) > 0)
          .ifPresent(film -> report(at, film, found));
    }
  }

  private static BigDecimal angle(Cephalometry film) {
    return film.value(Measurement.L1_MD).result().orElseThrow();
  }

  private static void report(ApplianceAt at, Cephalometry film, Findings found) {
    double u = film.uncertainty(Measurement.L1_MD, ReadingError.LANDMARK).result().orElseThrow();
    BigDecimal shown = Shown.above(angle(film), MOST);
    found
        .warning(at.at("incisalCapping"), at.id())
        .value("lowerIncisor", shown)
        .unit(Unit.DEGREE)
        .limit(MOST)
        .borderlineWithin(angle(film).subtract(MOST).doubleValue(), u)
        .says(
            "The lower incisors stand at %s° to the mandible and are not capped."
                .formatted(Shown.of(shown)));
  }
}
