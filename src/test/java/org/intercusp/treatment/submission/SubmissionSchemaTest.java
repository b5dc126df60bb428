package org.intercusp.treatment.submission;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.Mutator;
import org.intercusp.treatment.PublishedSchema;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The reader and the published schema of the outcome record accept the same records, by the word of
 * a general JSON Schema validator; what a schema cannot say has a code that begins with {@code
 * record-}.
 */
class SubmissionSchemaTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 1);
  private static final int CHANGES = 2_000;

  private static final String PLACE = "/schema/outcome-1.json";
  private static final JsonMapper JSON = PublishedSchema.JSON;

  private final SubmissionReader reader = new SubmissionReader();
  private final SubmissionWriter writer = new SubmissionWriter();

  @Test
  void thePublishedSchemaIsTheOneTheReaderFollows() {
    assertThat(PublishedSchema.text(PLACE))
        .as("write it anew on purpose with WriteSubmissionSchema")
        .isEqualTo(SubmissionSchema.text());
  }

  @Test
  void readerAndSchemaAgreeOnThousandsOfChangedRecords() {
    Schema schema = PublishedSchema.of(PLACE);
    List<Submission> records = new OutcomeGenerator().records(200, 3).toList();
    Map<String, Integer> codes = new HashMap<>();
    int accepted = 0;
    for (int seed = 0; seed < CHANGES; seed++) {
      JsonNode record = JSON.readTree(writer.write(records.get(seed % records.size())));
      JsonNode changed = new Mutator(seed).change(record);
      byte[] bytes = JSON.writeValueAsBytes(changed);
      List<Refusal> reasons = reasons(bytes);
      List<Error> errors = schema.validate(JSON.readTree(bytes));
      boolean ruled = reasons.stream().anyMatch(reason -> reason.code().startsWith("record-"));
      assertThat(reasons.isEmpty() || ruled)
          .as("seed %d: reader says %s, schema says %s", seed, reasons, errors)
          .isEqualTo(errors.isEmpty());
      reasons.forEach(reason -> codes.merge(reason.code(), 1, Integer::sum));
      accepted += reasons.isEmpty() ? 1 : 0;
    }
    assertThat(accepted).isBetween(CHANGES / 10, CHANGES * 9 / 10);
    assertThat(codes)
        .containsKeys(
            "score-range",
            "unknown-member",
            "wrong-type",
            "out-of-range",
            "not-a-date",
            "missing-member",
            "record-date-order");
  }

  private List<Refusal> reasons(byte[] bytes) {
    return reader.read(bytes, TODAY) instanceof ReadSubmission.Refused refused
        ? refused.reasons()
        : List.of();
  }
}
