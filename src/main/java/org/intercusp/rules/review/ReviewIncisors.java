package org.intercusp.rules.review;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import org.intercusp.analysis.film.Cephalometry;
import org.intercusp.analysis.film.FilmChange;
import org.intercusp.analysis.film.Measurement;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.ReadingError;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Film;

/** The lower incisors are not tipped forward between films. */
final class ReviewIncisors implements Rule {

  static final String CODE = "review-incisors";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("L1-Md of the last film with that of the first")
        .limit("at most 5 deg more", Limit.INCISOR_PROCLINATION)
        .about(
            "/films/*",
            "Bundle.entry.resource.ofType(Observation).where(code.coding.code = 'cephalometric-tracing')")
        .remedy("Cap the lower incisors, or end the advance.")
        .samples(
            Sample.failing(
                "/films/1",
                "{\"/films\": ["
                    + FILM.formatted("F1", "2026-01-12", "7")
                    + ", "
                    + FILM.formatted("F2", "2026-07-13", "9.2")
                    + "]}"),
            Sample.passing(
                "{\"/films\": ["
                    + FILM.formatted("F1", "2026-01-12", "7")
                    + ", "
                    + FILM.formatted("F2", "2026-07-13", "8.5")
                    + "]}"));
  }

  /** Mandibular plane level, lower incisor 22 mm long: its tip lies so far in front of its apex. */
  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [5%s, 30]}}""";

  @Override
  public void check(Case about, Findings found) {
    List<Film> measured =
        about.treatment().films().stream()
            .filter(film -> film.repeatOf() == null)
            .filter(film -> Cephalometry.of(film).value(Measurement.L1_MD).result().isPresent())
            .sorted(Comparator.comparing(Film::takenOn))
            .toList();
    if (measured.size() > 1) {
      compare(about, measured.get(0), measured.get(measured.size() - 1), found);
    }
  }

  private static void compare(Case about, Film first, Film last, Findings found) {
    FilmChange since = FilmChange.between(first, last);
    BigDecimal change = since.of(Measurement.L1_MD).result().orElseThrow();
    BigDecimal limit = about.limits().of(Limit.INCISOR_PROCLINATION);
    if (change.compareTo(limit) > 0) {
      double u = since.uncertainty(Measurement.L1_MD, ReadingError.LANDMARK).result().orElseThrow();
      BigDecimal shown = Shown.above(change, limit);
      found
          .warning(Pointer.of("films", about.treatment().films().indexOf(last)), last.id())
          .value("proclination", shown)
          .limit(Limit.INCISOR_PROCLINATION)
          .borderlineWithin(change.subtract(limit).doubleValue(), u)
          .says(
              "The lower incisors are %s° further forward than on film %s."
                  .formatted(Shown.of(shown), first.id()));
    }
  }
}
