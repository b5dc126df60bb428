package org.intercusp.registry.store;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.registry.privacy.Pseudonyms;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.Submission;
import org.jspecify.annotations.Nullable;

/** One submission as the row that is kept of it: pseudonyms, reduced dates, days and scores. */
final class CaseRow {

  private final Reduction reduction;
  private final List<@Nullable Object> values = new ArrayList<>(CaseColumns.ALL.size());

  private CaseRow(Reduction reduction) {
    this.reduction = reduction;
  }

  /** The values in the order of the columns; the sequence is not known yet. */
  static List<@Nullable Object> of(
      Submission submission,
      Course course,
      Hashes hashes,
      String keyId,
      Reduction reduction,
      LocalDate today) {
    CaseRow row = new CaseRow(reduction);
    row.add(name(submission.submitter()));
    row.add(hashes.submission());
    row.add(null);
    row.add(reduction.period(today));
    row.add(hashes.person());
    row.add(keyId);
    row.add(name(submission.clinic()));
    row.add(hashes.treatment());
    row.course(course);
    row.phases(course);
    row.add(submission.revisionNumber());
    row.add(hashes.content());
    if (row.values.size() != CaseColumns.ALL.size()) {
      throw new IllegalStateException("a row has " + row.values.size() + " values");
    }
    return row.values;
  }

  /** What stands in place of names. */
  record Hashes(String submission, String person, String treatment, String content) {
    static Hashes of(Submission submission, byte[] record, Pseudonyms pseudonyms) {
      return new Hashes(
          pseudonyms.submission(submission.submitter(), submission.submission()),
          pseudonyms.person(submission.patient()),
          pseudonyms.treatment(submission.clinic(), submission.treatment()),
          pseudonyms.content(record));
    }
  }

  static String name(Identifier identifier) {
    return identifier.system() + "|" + identifier.value();
  }

  private void add(@Nullable Object value) {
    values.add(value instanceof Coded coded ? coded.code() : value);
  }

  private void course(Course course) {
    LocalDate fitted = course.firstFittedOn();
    add(course.sex());
    add(fitted == null ? null : reduction.age(course.birthDate(), fitted));
    add(course.growthStage());
    add(course.appliance());
    String month = fitted == null ? null : reduction.period(fitted);
    add(month);
    add(month == null ? null : Integer.parseInt(month, 0, 4, 10));
    add(course.status());
    add(course.reason());
    add(days(fitted, course.decidedOn()));
    add(days(fitted, course.lastAttendedOn()));
    Course.StageDays stages = course.stageDays();
    add(stages == null ? null : stages.active());
    add(stages == null ? null : stages.support());
    add(stages == null ? null : stages.fixed());
    add(stages == null ? null : stages.retention());
    add(course.reviews());
    add(course.wearReported() == null ? null : course.wearReported().value().doubleValue());
    add(course.wearMeasured() == null ? null : course.wearMeasured().value().doubleValue());
    add(course.breakages());
    harm(course);
  }

  private static @Nullable Integer days(@Nullable LocalDate from, @Nullable LocalDate to) {
    return from == null || to == null ? null : (int) ChronoUnit.DAYS.between(from, to);
  }

  private void harm(Course course) {
    int serious = 0;
    for (HarmEvent.Code code : HarmEvent.Code.values()) {
      int count = 0;
      for (Course.HarmCount each : course.adverseEvents()) {
        if (each.code() == code) {
          count = each.count();
          serious += each.serious();
        }
      }
      add(count);
    }
    add(serious);
  }

  private void phases(Course course) {
    Course.Assessment twice = null;
    for (Phase phase : Phase.values()) {
      Course.Assessment at = null;
      for (Course.Assessment each : course.assessments()) {
        at = each.phase() == phase ? each : at;
      }
      assessment(at);
      twice = twice == null && at != null && at.parAgain() != null ? at : twice;
    }
    Par first = twice == null ? null : twice.par();
    Par again = twice == null ? null : twice.parAgain();
    add(first == null ? null : ParWeighting.UK.score(first));
    add(again == null ? null : ParWeighting.UK.score(again));
    add(twice == null ? null : twice.phase());
  }

  private void assessment(Course.@Nullable Assessment at) {
    if (at == null) {
      for (int i = 0; i < 18; i++) {
        add(null);
      }
      return;
    }
    add(reduction.period(at.date()));
    add(at.overjet() == null ? null : at.overjet().value().doubleValue());
    add(at.overbite() == null ? null : at.overbite().value().doubleValue());
    par(at.par());
    add(at.dhc());
    icon(at.icon());
    add(at.aesthetic());
  }

  private void par(@Nullable Par par) {
    add(par == null ? null : par.upperAnterior());
    add(par == null ? null : par.lowerAnterior());
    add(par == null ? null : par.buccalRight());
    add(par == null ? null : par.buccalLeft());
    add(par == null ? null : par.overjet());
    add(par == null ? null : par.overbite());
    add(par == null ? null : par.centreline());
  }

  private void icon(@Nullable Icon icon) {
    add(icon == null ? null : icon.aesthetic());
    add(icon == null ? null : icon.crowdingSpacing());
    add(icon == null ? null : icon.crossbite());
    add(icon == null ? null : icon.vertical());
    add(icon == null ? null : icon.buccalRight());
    add(icon == null ? null : icon.buccalLeft());
  }
}
