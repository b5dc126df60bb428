package org.intercusp.scenario;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.CourseStatus;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.junit.jupiter.api.Test;

class OutcomeGeneratorTest {

  private static final List<Submission> MANY =
      new OutcomeGenerator().records(6000, 20261030).toList();

  private final SubmissionWriter writer = new SubmissionWriter();

  private String text(Stream<Submission> records) {
    StringBuilder text = new StringBuilder();
    records.forEach(each -> text.append(new String(writer.write(each), UTF_8)).append('\n'));
    return text.toString();
  }

  @Test
  void theSameSeedGivesTheSameBytes() {
    OutcomeGenerator generator = new OutcomeGenerator();
    String hundred = text(generator.records(100, 7));
    assertThat(text(generator.records(100, 7))).isEqualTo(hundred);
    assertThat(hundred).startsWith(text(generator.records(9, 7)));
    assertThat(text(generator.records(100, 8))).isNotEqualTo(hundred);
  }

  @Test
  void allAreValid() {
    SubmissionReader reader = new SubmissionReader();
    for (Submission record : MANY) {
      byte[] bytes = writer.write(record);
      assertThat(reader.read(bytes, LocalDate.of(2026, 10, 30)))
          .as("%s", new String(bytes, UTF_8))
          .isEqualTo(new ReadSubmission.Accepted(record));
    }
  }

  @Test
  void theSpreadIsWhatARegistrySees() {
    assertThat(share(course -> course.status() == CourseStatus.COMPLETED)).isBetween(0.35, 0.75);
    assertThat(share(course -> course.status() == CourseStatus.TRANSFERRED)).isBetween(0.005, 0.03);
    assertThat(share(course -> course.status() == CourseStatus.UNKNOWN)).isBetween(0.01, 0.05);
    assertThat(share(course -> course.growthStage() == null)).isBetween(0.15, 0.4);
    assertThat(share(course -> course.wearMeasured() != null)).isBetween(0.1, 0.2);
    assertThat(share(course -> course.assessments().stream().anyMatch(a -> a.parAgain() != null)))
        .isBetween(0.02, 0.15);
  }

  @Test
  void someMoveAndSomeComeTwice() {
    Map<String, Integer> patients = new HashMap<>();
    Map<String, Integer> submissions = new HashMap<>();
    Map<String, Integer> clinics = new HashMap<>();
    for (Submission record : MANY) {
      patients.merge(record.patient().value(), 1, Integer::sum);
      submissions.merge(record.submitter() + record.submission(), 1, Integer::sum);
      clinics.merge(record.clinic().value(), 1, Integer::sum);
    }
    assertThat(patients.values()).filteredOn(count -> count == 2).hasSizeBetween(100, 300);
    assertThat(submissions.values()).filteredOn(count -> count == 2).hasSizeBetween(10, 80);
    assertThat(clinics).hasSize(Practice.COUNT);
    assertThat(clinics.values()).allMatch(count -> count > 50);
  }

  private static double share(Predicate<Course> is) {
    return MANY.stream().map(Submission::course).filter(is).count() / (double) MANY.size();
  }
}
