package org.intercusp.worklist;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.finding.Severity;
import org.intercusp.finding.ShortText;
import org.intercusp.measure.Length;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;

/** Makes the row of a stored treatment: reads it, examines it, counts what was found. */
final class Judging {

  /** Counts up when rows of earlier programs must be made anew. */
  private static final int FORM = 6;

  /** Width of the columns. */
  private static final int LONGEST = 1_000;

  private final TreatmentReader reader;
  private final Examiner examiner;
  private final String edition;

  Judging(TreatmentReader reader, Limits limits) {
    this.reader = reader;
    this.examiner = new Examiner(limits);
    this.edition = edition(limits);
  }

  /** What rows are judged by: this form, the rules there are and the limits they use. */
  String edition() {
    return edition;
  }

  private static String edition(Limits limits) {
    String rules =
        RuleCatalogue.rules().stream()
            .map(rule -> rule.code() + " " + rule.severities() + " " + rule.limit())
            .collect(Collectors.joining("; "));
    String program = String.valueOf(Judging.class.getPackage().getImplementationVersion());
    String all = String.join(" ", "" + FORM, program, rules, limits.changed().toString());
    return DigestUtils.sha256Hex(all);
  }

  Entry of(StoredTreatment stored, LocalDate today) {
    ReadResult result = reader.read(stored.bytes());
    return result instanceof ReadResult.Accepted accepted
        ? of(stored, accepted.treatment(), today)
        : unreadable(stored, today);
  }

  private Entry of(StoredTreatment stored, Treatment treatment, LocalDate today) {
    LocalDate day = treatment.dayOr(today);
    Examination examination = examiner.examine(treatment, day);
    Optional<NextReview> next = NextReview.of(treatment).result();
    return new Entry(
        stored.key(),
        stored.version(),
        stored.receivedAt(),
        today,
        treatment.asOf() == null,
        ShortText.cut(treatment.clinic().name(), LONGEST),
        ShortText.cut(name(treatment), LONGEST),
        ShortText.cut(treatment.patient().identifier().value(), LONGEST),
        status(treatment),
        stage(treatment, day),
        count(examination, Judged::stops),
        count(examination, Judged::stopsOrders),
        count(examination, judged -> judged.finding().severity() == Severity.WARNING),
        stored(treatment.diagnosis().overjet()),
        last(treatment).map(review -> stored(review.overjet())).orElse(null),
        OverjetGoal.of(treatment, day).map(goal -> stored(goal.target())).orElse(null),
        next.map(NextReview::from).orElse(null),
        next.map(NextReview::by).orElse(null),
        consent(treatment));
  }

  private static @Nullable String consent(Treatment treatment) {
    Consent consent = treatment.patient().consent();
    if (consent == null) {
      return null;
    }
    if (!consent.given()) {
      return "refused";
    }
    return consent.withdrawnOn() == null ? null : "withdrawn";
  }

  /** A version that an earlier program took and this one cannot read: somebody must look at it. */
  private static Entry unreadable(StoredTreatment stored, LocalDate today) {
    return new Entry(
        stored.key(),
        stored.version(),
        stored.receivedAt(),
        today,
        false,
        stored.key().clinic().value(),
        "(cannot be read)",
        "",
        "unreadable",
        null,
        1,
        0,
        0,
        null,
        null,
        null,
        null,
        null,
        null);
  }

  private static String name(Treatment treatment) {
    return treatment.patient().family() + ", " + String.join(" ", treatment.patient().given());
  }

  private static String status(Treatment treatment) {
    Completion completion = treatment.completion();
    if (completion != null) {
      return completion.status().code();
    }
    return StageDates.firstFitting(treatment).isPresent() ? "in-treatment" : "planned";
  }

  private static @Nullable String stage(Treatment treatment, LocalDate day) {
    if (treatment.hasEnded()) {
      return null;
    }
    return CurrentStage.on(treatment, day).map(stage -> stage.kind().code()).orElse(null);
  }

  private static Optional<Review> last(Treatment treatment) {
    return treatment.lastReview();
  }

  private static int count(Examination examination, Predicate<Judged> which) {
    return (int) examination.findings().stream().filter(which).count();
  }

  /** To the digits of the column. */
  private static BigDecimal stored(Length length) {
    return length.value().setScale(3, RoundingMode.HALF_UP);
  }
}
