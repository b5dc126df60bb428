package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Stage.Goal;
import org.intercusp.treatment.Stage.Goal.Comparator;
import org.intercusp.treatment.Stage.Goal.Measure;
import org.intercusp.treatment.Stage.Trimming;
import org.intercusp.treatment.StageKind;
import org.jspecify.annotations.Nullable;

/** What has happened in one invented treatment up to the day the records speak of. */
final class Course {

  private final Draw draw;
  private final Mouth mouth;
  private final Plan plan;
  final Path path;
  private final Visits visits;
  private final @Nullable LocalDate fittedOn;
  private final @Nullable LocalDate droppedOn;
  private final List<Stage> stages = new ArrayList<>();
  private final List<Appliance> appliances = new ArrayList<>();

  /** The day after which nothing more has happened. */
  private final LocalDate until;

  @Nullable LocalDate activeEndsOn;
  @Nullable LocalDate endsOn;

  Course(Draw draw, Mouth mouth, Plan plan, String seenBy) {
    this.draw = draw;
    this.mouth = mouth;
    this.plan = plan;
    this.path = new Path(draw, mouth, plan);
    this.fittedOn = mouth.planned ? plan.appliance.fittedOn() : null;
    this.droppedOn = dropped();
    this.until = droppedOn == null ? Mouth.AS_OF : droppedOn;
    if (mouth.planned) {
      appliances.add(plan.appliance);
    }
    this.visits = new Visits(draw, mouth, plan, path, seenBy, until);
    LocalDate start = fittedOn;
    start = active(start);
    start = support(start);
    start = path.fixedMonths > 0 ? fixed(start) : start;
    retention(start);
    appliances.addAll(visits.remade());
  }

  /** About a fifth give up, those who wear it little more often: common practice, no source. */
  private @Nullable LocalDate dropped() {
    double probability = path.wear < 6 ? 0.5 : 0.13;
    int days = draw.whole(60, 600);
    boolean drops = draw.chance(probability);
    LocalDate on = fittedOn == null ? null : fittedOn.plusDays(days);
    return drops && on != null && on.isBefore(Mouth.AS_OF) ? on : null;
  }

  private @Nullable LocalDate active(@Nullable LocalDate start) {
    Stage stage =
        new Stage(
            "active",
            StageKind.ACTIVE,
            mouth.planned ? plan.appliance.id() : null,
            start,
            path.activeMonths,
            6,
            draw.chance(0.95) ? hours(draw.chance(0.85) ? "22" : "14") : null,
            mouth.overbite >= 4 ? new Trimming(Length.of("1.5"), 2) : null,
            List.of(
                goal(Measure.OVERJET, Comparator.AT_MOST, "2.5"),
                goal(Measure.MOLAR_RELATION, Comparator.AT_MOST, "0.5")));
    LocalDate end = run(stage, start, 12);
    activeEndsOn = reached(end) ? end : null;
    return end;
  }

  private @Nullable LocalDate support(@Nullable LocalDate start) {
    String id = orderedFor(start, "app-support", /* inclined= */ true);
    return run(
        new Stage(
            "support",
            StageKind.SUPPORT,
            id,
            begun(start),
            path.supportMonths,
            8,
            hours("22"),
            null,
            List.of(goal(Measure.POSTERIOR_OPEN_BITE, Comparator.AT_MOST, "0"))),
        start,
        28);
  }

  private @Nullable LocalDate fixed(@Nullable LocalDate start) {
    return run(
        new Stage(
            "fixed",
            StageKind.FIXED,
            null,
            begun(start),
            path.fixedMonths,
            6,
            null,
            null,
            List.of(goal(Measure.OVERJET, Comparator.AT_MOST, "3"))),
        start,
        42);
  }

  private void retention(@Nullable LocalDate start) {
    String id = orderedFor(start, "app-retainer", /* inclined= */ false);
    LocalDate end =
        run(
            new Stage(
                "retention",
                StageKind.RETENTION,
                id,
                begun(start),
                path.retentionMonths,
                13,
                hours("10"),
                null,
                List.of(goal(Measure.OVERJET, Comparator.AT_MOST, "3"))),
            start,
            42);
    endsOn = reached(end) ? end : null;
  }

  private static HoursPerDay hours(String number) {
    return HoursPerDay.of(number);
  }

  private static Goal goal(Measure measure, Comparator comparator, String target) {
    return new Goal(measure, comparator, Length.of(target));
  }

  private @Nullable LocalDate begun(@Nullable LocalDate start) {
    return reached(start) ? start : null;
  }

  private boolean reached(@Nullable LocalDate on) {
    return on != null && !on.isAfter(until);
  }

  /** Orders the next appliance two weeks before its stage; its id, or null while not ordered. */
  private @Nullable String orderedFor(@Nullable LocalDate start, String id, boolean inclined) {
    LocalDate ordered = start == null ? null : start.minusDays(14);
    if (start == null || ordered == null || !reached(ordered)) {
      return null;
    }
    appliances.add(
        new FollowOn(draw, mouth, plan).made(id, ordered, reached(start) ? start : null, inclined));
    return id;
  }

  /** Adds a stage and the visits of it that have happened; the day it ends. */
  private @Nullable LocalDate run(Stage stage, @Nullable LocalDate start, int firstDays) {
    stages.add(stage);
    if (start == null) {
      return null;
    }
    LocalDate end = start.plusMonths(stage.months());
    visits.during(stage, start, end, firstDays);
    return end;
  }

  List<Bite> bites() {
    List<Bite> bites = new ArrayList<>();
    if (mouth.planned) {
      bites.add(plan.first);
    }
    bites.addAll(visits.bites());
    return bites;
  }

  List<Appliance> appliances() {
    return appliances;
  }

  List<Stage> stages() {
    return stages;
  }

  List<Review> reviews() {
    return visits.reviews();
  }

  @Nullable Completion completion() {
    List<Review> reviews = visits.reviews();
    LocalDate last = reviews.isEmpty() ? fittedOn : reviews.get(reviews.size() - 1).date();
    if (last == null) {
      return null;
    }
    if (droppedOn != null) {
      return Ending.droppedOut(draw, path.wear, droppedOn, last);
    }
    if (endsOn != null) {
      return new Completion(Completion.Status.COMPLETED, null, endsOn, last);
    }
    return draw.chance(0.6)
        ? new Completion(Completion.Status.IN_TREATMENT, null, last, last)
        : null;
  }
}
