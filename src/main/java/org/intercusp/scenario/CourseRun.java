package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Completion.Reason;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.Sex;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.CourseStatus;
import org.jspecify.annotations.Nullable;

/**
 * One invented course of treatment as a registry gets it. The active stage has mean 340 days and
 * spread 102 (Campbell 2020, the trial the design names); worn hours lie around 8.8 of 12
 * prescribed and 12.4 of 22 (Parekh 2019, the trial the design names). Everything else is common
 * practice, no source.
 */
final class CourseRun {

  private static final List<GrowthStage> GROWTH = List.of(GrowthStage.values());

  private final Draw draw;
  private final Practice practice;
  private final PhaseScores scores;
  private final Sex sex;
  private final double age;
  private final LocalDate fitted;
  private final LocalDate birth;
  private final double wear;
  private final int active;
  private final int support;
  private final int fixed;
  private final int retention;
  private final @Nullable Integer stoppedAfter;

  CourseRun(Draw draw, Practice practice) {
    this.draw = draw;
    this.practice = practice;
    this.sex = draw.chance(0.004) ? Sex.UNKNOWN : draw.chance(0.52) ? Sex.FEMALE : Sex.MALE;
    this.age = draw.normal(12.3, 1.3, 9, 16);
    this.fitted = Mouth.AS_OF.minusDays(draw.whole(60, 2800));
    this.birth = fitted.minusDays(StrictMath.round(age * 365.25));
    this.wear = draw.chance(0.3) ? draw.normal(8.8, 2.8, 0, 20) : draw.normal(12.4, 4, 0, 23);
    this.active = (int) draw.normal(340, 102, 120, 760);
    this.support = (int) draw.normal(150, 35, 60, 300);
    this.fixed = draw.chance(0.55) ? (int) draw.normal(420, 120, 150, 900) : 0;
    this.retention = (int) draw.normal(300, 60, 150, 500);
    this.scores = new PhaseScores(draw, practice);
    this.stoppedAfter = stops() ? draw.whole(40, active + support) : null;
  }

  /** About a fifth give up: more of the older, the boys, and those who wear it little. */
  private boolean stops() {
    double odds =
        -1.55
            + practice.dropout()
            + 0.12 * (age - 12.3)
            + (sex == Sex.MALE ? 0.15 : 0)
            - 0.11 * (wear - 11);
    return draw.chance(1 / (1 + StrictMath.exp(-odds)));
  }

  /** The whole course up to the day the records speak of. */
  Course whole() {
    int planned = active + support + fixed + retention;
    int days = stoppedAfter == null ? planned : stoppedAfter;
    LocalDate end = fitted.plusDays(days);
    if (end.isAfter(Mouth.AS_OF)) {
      int so = (int) (Mouth.AS_OF.toEpochDay() - fitted.toEpochDay());
      LocalDate attended = Mouth.AS_OF.minusDays(draw.whole(0, 50));
      return course(so, CourseStatus.IN_TREATMENT, null, null, later(attended));
    }
    if (draw.chance(0.03)) {
      return course(days, CourseStatus.UNKNOWN, null, null, seenBefore(end));
    }
    return stoppedAfter == null
        ? course(days, CourseStatus.COMPLETED, null, end, end)
        : stopped(days, end);
  }

  /** The same course cut short by a move to another clinic. */
  Course untilMove() {
    int days = Math.min(active, (int) (Mouth.AS_OF.toEpochDay() - fitted.toEpochDay())) / 2;
    LocalDate moved = fitted.plusDays(days);
    return course(days, CourseStatus.TRANSFERRED, Reason.MOVED, moved, moved);
  }

  private LocalDate later(LocalDate day) {
    return day.isBefore(fitted) ? fitted : day;
  }

  private LocalDate seenBefore(LocalDate end) {
    return later(end.minusDays(draw.whole(0, 70)));
  }

  private Course stopped(int days, LocalDate end) {
    LocalDate attended = seenBefore(end);
    if (draw.chance(0.3)) {
      return course(days, CourseStatus.LOST_TO_FOLLOW_UP, null, end, attended);
    }
    Reason reason =
        wear < 7
            ? Reason.NON_WEAR
            : draw.pick(
                List.of(
                    Reason.DISCOMFORT,
                    Reason.BREAKAGE,
                    Reason.POOR_RESPONSE,
                    Reason.POOR_HYGIENE,
                    Reason.ADVERSE_EVENT,
                    Reason.OTHER));
    CourseStatus status =
        draw.chance(0.7) ? CourseStatus.PATIENT_STOPPED : CourseStatus.DISCONTINUED_BY_CLINICIAN;
    return course(days, status, draw.chance(0.92) ? reason : null, end, attended);
  }

  private Course course(
      int days,
      CourseStatus status,
      @Nullable Reason reason,
      @Nullable LocalDate decided,
      LocalDate attended) {
    return new Course(
        birth,
        sex,
        draw.chance(0.97) ? ApplianceType.TWIN_BLOCK : ApplianceType.ANTERIOR_INCLINED_PLANE,
        fitted,
        kept(0.72) ? growth() : null,
        status,
        reason,
        decided,
        kept(0.98) ? attended : null,
        kept(0.96) ? stageDays(days) : null,
        1 + days / 45,
        kept(0.85) ? hours(wear + draw.normal(1.5, 1, -2, 5)) : null,
        draw.chance(0.15) ? hours(wear) : null,
        breakages(),
        harm(days),
        assessments(days, status));
  }

  private Course.StageDays stageDays(int days) {
    int left = days - active;
    Integer second = left > 0 ? Integer.valueOf(Math.min(left, support)) : null;
    left -= support;
    Integer third = left > 0 && fixed > 0 ? Integer.valueOf(Math.min(left, fixed)) : null;
    left -= fixed;
    Integer fourth = left > 0 ? Integer.valueOf(Math.min(left, retention)) : null;
    return new Course.StageDays(Math.min(days, active), second, third, fourth);
  }

  private List<Course.Assessment> assessments(int days, CourseStatus status) {
    List<Course.Assessment> all = new ArrayList<>();
    double worn = Math.max(0.2, Math.min(1.05, wear / 11));
    if (kept(0.95)) {
      LocalDate start = fitted.minusDays(draw.whole(14, 90));
      all.add(scores.at(Phase.START, start, 0, /* braces= */ false));
    }
    if (days >= active && kept(0.5)) {
      all.add(scores.at(Phase.END_ACTIVE, fitted.plusDays(active), worn * 0.95, false));
    }
    boolean ended = status == CourseStatus.COMPLETED || (stoppedAfter != null && draw.chance(0.35));
    if (ended
        && status != CourseStatus.IN_TREATMENT
        && status != CourseStatus.TRANSFERRED
        && kept(0.88)) {
      double done =
          status == CourseStatus.COMPLETED ? worn : worn * Math.min(1, days / (double) active);
      all.add(scores.at(Phase.END, fitted.plusDays(days), done, fixed > 0 && days > active));
    }
    LocalDate late = fitted.plusDays(days + 365L);
    if (status == CourseStatus.COMPLETED && !late.isAfter(Mouth.AS_OF) && kept(0.35)) {
      all.add(scores.at(Phase.RETENTION_12_MONTHS, late, worn * 0.93, fixed > 0));
    }
    return all;
  }

  private GrowthStage growth() {
    double[] passes = {10.3, 11.3, 12.4, 13.6, 15.0};
    double maturity = age + draw.normal(0, 0.9, -2, 2) + (sex == Sex.FEMALE ? 0.5 : -0.5);
    int at = 0;
    while (at < passes.length && maturity > passes[at]) {
      at++;
    }
    return GROWTH.get(at);
  }

  private int breakages() {
    int count = 0;
    while (count < 6 && draw.chance(0.24)) {
      count++;
    }
    return count;
  }

  private List<Course.HarmCount> harm(int days) {
    List<Course.HarmCount> all = new ArrayList<>();
    double years = days / 365.0;
    add(all, HarmEvent.Code.CARIES, 0.01 * years, 0);
    add(all, HarmEvent.Code.WHITE_SPOT, 0.03 * years, 0);
    add(all, HarmEvent.Code.GINGIVITIS, 0.05 * years, 0);
    add(all, HarmEvent.Code.ULCER, 0.12, 0);
    add(all, HarmEvent.Code.ALLERGY, 0.001, 0.1);
    add(all, HarmEvent.Code.JOINT, 0.012 * years, 0.02);
    add(all, HarmEvent.Code.INCISOR_TRAUMA, 0.012 * years, 0.1);
    add(all, HarmEvent.Code.ROOT_RESORPTION, fixed > 0 ? 0.008 : 0.001, 0);
    add(all, HarmEvent.Code.FRAGMENT_SWALLOWED, 0.0008, 0.6);
    add(all, HarmEvent.Code.FRAGMENT_INHALED, 0.00005, 1);
    add(all, HarmEvent.Code.OTHER, 0.005, 0.05);
    return all;
  }

  private void add(List<Course.HarmCount> all, HarmEvent.Code code, double chance, double grave) {
    if (draw.chance(Math.min(1, chance))) {
      int count = draw.chance(0.15) ? 2 : 1;
      all.add(new Course.HarmCount(code, count, draw.chance(grave) ? 1 : 0));
    }
  }

  private boolean kept(double probability) {
    return draw.chance(Math.min(1, probability * practice.diligence()));
  }

  private static HoursPerDay hours(double value) {
    return new HoursPerDay(Draw.decimal(Math.max(0, Math.min(24, value)), 1));
  }
}
