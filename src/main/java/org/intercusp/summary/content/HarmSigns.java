package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.intercusp.finding.Severity;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;

/**
 * The signs of harm that a reader must see first: those no clinician has answered before the rest,
 * the newest before the older, so that a cut list never hides the one that matters.
 */
final class HarmSigns {

  /** As many as leave the summary on one page; the rest is counted. */
  private static final int SHOWN = 3;

  private HarmSigns() {}

  static Optional<Panel> panel(Treatment treatment, Examination examination) {
    List<String> said = said(treatment, examination);
    return said.isEmpty()
        ? Optional.empty()
        : Optional.of(Panel.wide("Sign of harm", new Part.Alarm(said)));
  }

  private static List<String> said(Treatment treatment, Examination examination) {
    Map<String, LocalDate> days =
        treatment.reviews().stream()
            .collect(Collectors.toMap(Review::id, Review::date, (first, second) -> first));
    List<Judged> signs =
        examination.findings().stream()
            .filter(judged -> judged.finding().severity() == Severity.URGENT)
            .sorted(
                Comparator.comparing(Judged::accepted)
                    .thenComparing(judged -> day(days, judged), Comparator.reverseOrder()))
            .toList();
    List<String> said = new ArrayList<>();
    signs.stream().limit(SHOWN).map(judged -> judged.finding().message()).forEach(said::add);
    if (signs.size() > SHOWN) {
      said.add("and " + (signs.size() - SHOWN) + " more");
    }
    return said;
  }

  private static LocalDate day(Map<String, LocalDate> days, Judged judged) {
    return days.getOrDefault(judged.finding().subject(), LocalDate.MIN);
  }
}
