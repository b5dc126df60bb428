package org.intercusp.registry.bundle;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.analysis.index.LastScoring;
import org.intercusp.analysis.index.Scored;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeScores;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.CourseStatus;
import org.intercusp.treatment.submission.Submission;
import org.jspecify.annotations.Nullable;

/**
 * The outcome record that follows from a treatment file: what a registry needs and nothing else. No
 * name, note, bite, film or examiner goes along. Where consent for the registry was withdrawn, it
 * is the withdrawal; where it was never given, there is none. Where the file does not say how the
 * treatment stands and nobody was seen or expected for a year, its end is unknown.
 */
final class Minimised {

  /** Means are given to a tenth of an hour, as wear is reported. */
  private static final MathContext EXACT = MathContext.DECIMAL64;

  /** After so long without a visit nobody knows whether a treatment goes on: common practice. */
  private static final int SILENT_MONTHS = 12;

  private final Treatment treatment;
  private final LocalDate on;

  private Minimised(Treatment treatment, LocalDate on) {
    this.treatment = treatment;
    this.on = on;
  }

  /**
   * The record, or nothing without consent for the registry.
   *
   * @param on the day it is; nothing later counts
   */
  public static Optional<Submission> of(
      Treatment treatment, Identifier submitter, String submission, int revision, LocalDate on) {
    Consent consent = treatment.patient().consent();
    if (consent == null || !consent.given() || !consent.scope().contains(ConsentScope.REGISTRY)) {
      return Optional.empty();
    }
    LocalDate withdrawn = consent.withdrawnOn();
    boolean is = withdrawn != null && !withdrawn.isAfter(on);
    return Optional.of(
        new Submission(
            is ? Submission.Kind.WITHDRAWAL : Submission.Kind.CASE,
            submitter,
            submission,
            revision,
            treatment.clinic().identifier(),
            treatment.id(),
            treatment.patient().identifier(),
            new Submission.Agreement(consent.recordedOn(), is ? withdrawn : null),
            is ? null : new Minimised(treatment, on).course()));
  }

  private Course course() {
    Optional<Appliance> first =
        treatment.appliances().stream()
            .filter(a -> a.fittedOn() != null && a.type() != ApplianceType.RETAINER)
            .min(Comparator.comparing(a -> Objects.requireNonNull(a.fittedOn())));
    LocalDate fitted = first.map(Appliance::fittedOn).orElse(null);
    Completion completion = treatment.completion();
    CourseStatus status = status(completion);
    boolean goesOn = status == CourseStatus.IN_TREATMENT;
    return new Course(
        treatment.patient().birthDate(),
        treatment.patient().sex(),
        first.map(Appliance::type).orElse(ApplianceType.TWIN_BLOCK),
        fitted,
        treatment.diagnosis().growthStage(),
        status,
        completion == null ? null : completion.reason(),
        completion == null || goesOn ? null : completion.decidedOn(),
        completion == null ? lastReview() : completion.lastAttendedOn(),
        stageDays(goesOn ? on : completion == null ? heardOf() : completion.decidedOn()),
        treatment.reviews().size(),
        mean(treatment.reviews().stream().map(Review::wearReported).toList()),
        mean(
            treatment.reviews().stream()
                .map(Review::wearMeasured)
                .map(wear -> wear == null ? null : wear.hoursPerDay())
                .toList()),
        treatment.reviews().stream().mapToInt(review -> review.breakages().size()).sum(),
        harm(),
        assessments());
  }

  /** As the clinic says; where it says nothing, as long as somebody was there or is expected. */
  private CourseStatus status(@Nullable Completion completion) {
    if (completion != null) {
      return CourseStatus.of(completion.status());
    }
    return heardOf().isBefore(on.minusMonths(SILENT_MONTHS))
        ? CourseStatus.UNKNOWN
        : CourseStatus.IN_TREATMENT;
  }

  /** The last day that the record tells of, be it one on which a visit is expected. */
  private LocalDate heardOf() {
    return Stream.of(
            Stream.of(treatment.diagnosis().assessedOn()),
            treatment.appliances().stream().map(Appliance::fittedOn),
            treatment.reviews().stream().map(Review::date),
            treatment.reviews().stream().map(Review::nextReviewOn))
        .flatMap(each -> each)
        .filter(Objects::nonNull)
        .max(Comparator.naturalOrder())
        .orElseThrow();
  }

  private @Nullable LocalDate lastReview() {
    return treatment.reviews().stream()
        .map(Review::date)
        .max(Comparator.naturalOrder())
        .orElse(null);
  }

  private static @Nullable HoursPerDay mean(List<@Nullable HoursPerDay> hours) {
    BigDecimal sum = BigDecimal.ZERO;
    int count = 0;
    for (HoursPerDay each : hours) {
      if (each != null) {
        sum = sum.add(each.value());
        count++;
      }
    }
    if (count == 0) {
      return null;
    }
    BigDecimal mean = sum.divide(BigDecimal.valueOf(count), EXACT);
    return new HoursPerDay(mean.setScale(1, RoundingMode.HALF_UP));
  }

  private Course.@Nullable StageDays stageDays(LocalDate end) {
    @Nullable Integer active = days(StageKind.ACTIVE, end);
    @Nullable Integer support = days(StageKind.SUPPORT, end);
    @Nullable Integer fixed = days(StageKind.FIXED, end);
    @Nullable Integer retention = days(StageKind.RETENTION, end);
    boolean none = active == null && support == null && fixed == null && retention == null;
    return none ? null : new Course.StageDays(active, support, fixed, retention);
  }

  /** A stage runs to its end, the next one's start, or the end of the record. */
  private @Nullable Integer days(StageKind kind, LocalDate end) {
    List<StageDates> dates =
        StageDates.of(treatment).stream().flatMap(each -> each.result().stream()).toList();
    long days = 0;
    boolean begun = false;
    for (int i = 0; i < dates.size(); i++) {
      StageDates stage = dates.get(i);
      if (stage.stage().kind() == kind && stage.start().isBefore(end)) {
        LocalDate until = stage.end().isBefore(end) ? stage.end() : end;
        LocalDate next = i + 1 < dates.size() ? dates.get(i + 1).start() : until;
        until = next.isBefore(until) ? next : until;
        days += Math.max(0, ChronoUnit.DAYS.between(stage.start(), until));
        begun = true;
      }
    }
    return begun ? Integer.valueOf((int) days) : null;
  }

  private List<Course.HarmCount> harm() {
    List<Course.HarmCount> all = new ArrayList<>();
    for (HarmEvent.Code code : HarmEvent.Code.values()) {
      List<HarmEvent> events =
          treatment.reviews().stream()
              .flatMap(review -> review.adverseEvents().stream())
              .filter(event -> event.code() == code)
              .toList();
      if (!events.isEmpty()) {
        int serious = (int) events.stream().filter(HarmEvent::serious).count();
        all.add(new Course.HarmCount(code, events.size(), serious));
      }
    }
    return all;
  }

  private List<Course.Assessment> assessments() {
    List<Course.Assessment> all = new ArrayList<>();
    for (Outcome.Phase phase : Outcome.Phase.values()) {
      LastScoring.of(treatment.outcomes(), phase)
          .map(this::assessment)
          .filter(Minimised::saysSomething)
          .ifPresent(all::add);
    }
    return all;
  }

  private Course.Assessment assessment(Outcome outcome) {
    Scored scored = Scored.of(outcome);
    OutcomeScores.Par par = scored.par().result().orElse(null);
    OutcomeScores.Par again =
        treatment.outcomes().stream()
            .filter(each -> outcome.id().equals(each.repeatOf()))
            .findFirst()
            .flatMap(each -> Scored.of(each).par().result())
            .orElse(null);
    return new Course.Assessment(
        outcome.phase(),
        outcome.date(),
        outcome.findings() == null ? null : outcome.findings().overjet(),
        outcome.findings() == null ? null : outcome.findings().overbite(),
        par,
        par == null ? null : again,
        scored.dhc().result().orElse(null),
        scored.icon().result().orElse(null),
        scored.aesthetic().result().orElse(null));
  }

  private static boolean saysSomething(Course.Assessment each) {
    return each.overjet() != null
        || each.overbite() != null
        || each.par() != null
        || each.dhc() != null
        || each.icon() != null
        || each.aesthetic() != null;
  }
}
