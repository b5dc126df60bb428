package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.InputStream;
import java.util.stream.Stream;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** The JSON of an examination is what its published schema says. */
class ExaminationWriterTest {

  private static final JsonMapper JSON = JsonMapper.builder().build();
  private static final Schema SCHEMA = schema();

  @Test
  void everySampleOfEveryRuleFitsTheSchema() {
    RuleCatalogue.rules().stream()
        .flatMap(rule -> Stream.of(rule.failing(), rule.passing()))
        .forEach(sample -> fits(sample.changes()));
  }

  @Test
  void theSchemaRefusesWhatIsNotInIt() {
    ObjectNode written = written("{}");
    written.put("score", 3);
    assertThat(SCHEMA.validate(written)).isNotEmpty();
    ObjectNode nameless = written("{}");
    ((ObjectNode) nameless.get("figures").get(0)).remove("name");
    assertThat(SCHEMA.validate(nameless)).isNotEmpty();
    ObjectNode silent = written("{}");
    ((ObjectNode) silent.get("figures").get(0)).putNull("value").remove("note");
    assertThat(SCHEMA.validate(silent)).isNotEmpty();
  }

  @Test
  void membersAreThoseOfTheContract() {
    ObjectNode written =
        written("{\"/bites/0/registeredReading\": 9.5, \"/bites/0/overjetInBite\": -0.5}");
    assertThat(written.propertyNames()).containsExactly("treatment", "figures", "findings");
    JsonNode finding = written.get("findings").get(0);
    assertThat(finding.propertyNames())
        .containsExactly(
            "code",
            "severity",
            "pointer",
            "subject",
            "value",
            "limit",
            "unit",
            "message",
            "remedy",
            "source",
            "values");
    assertThat(finding.get("code").stringValue()).isEqualTo("bite-share-exceeded");
    assertThat(finding.get("value").decimalValue()).isEqualByComparingTo("0.7308");
    assertThat(finding.get("unit").stringValue()).isEqualTo("1");
    assertThat(finding.get("values").propertyNames())
        .containsExactly("activation", "path", "share");
  }

  @Test
  void aMissingReadingIsNullWithTheReason() {
    JsonNode figures = written("{\"/bites/0/retrudedReading\": null}").get("figures");
    JsonNode slide = find(figures, "name", "slide");
    assertThat(slide.get("value").isNull()).isTrue();
    assertThat(slide.get("note").stringValue()).contains("retrudedReading");
    assertThat(find(figures, "name", "path").get("note").stringValue()).contains("slide assumed 0");
  }

  @Test
  void textAndTreeAreTheSame() {
    Treatment treatment = SampleTreatments.base();
    Examination examination = new Examiner().examine(treatment, treatment.asOf());
    ExaminationWriter writer = new ExaminationWriter();
    assertThat(writer.text(examination)).doesNotContain("E+").contains("\n");
    assertThat(JSON.readTree(writer.text(examination)).toString())
        .isEqualTo(JSON.readTree(writer.write(examination).toString()).toString());
  }

  @Test
  void theCatalogueHoldsEveryRuleWithItsParts() {
    JsonNode rules = new RuleCatalogueWriter(Limits.USUAL).write().get("rules");
    assertThat(rules.size()).isEqualTo(RuleCatalogue.rules().size());
    for (RuleDescription rule : RuleCatalogue.rules()) {
      JsonNode node = find(rules, "code", rule.code());
      assertThat(node.get("source").stringValue()).isNotBlank();
      assertThat(node.get("failing").get("pointer").stringValue())
          .isEqualTo(rule.failing().pointer());
      assertThat(node.get("limits").size()).isEqualTo(rule.settable().size());
    }
  }

  private static JsonNode find(JsonNode list, String member, String value) {
    for (JsonNode node : list) {
      if (node.get(member).stringValue().equals(value)) {
        return node;
      }
    }
    throw new AssertionError("no " + value);
  }

  private static void fits(String changes) {
    assertThat(SCHEMA.validate(written(changes))).as(changes).isEmpty();
  }

  private static ObjectNode written(String changes) {
    Treatment treatment = SampleTreatments.changed(changes);
    Examination examination = new Examiner().examine(treatment, treatment.asOf());
    return (ObjectNode) JSON.readTree(new ExaminationWriter().text(examination));
  }

  private static Schema schema() {
    InputStream in = ExaminationWriter.class.getResourceAsStream("/schema/examination-1.json");
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(in);
  }
}
