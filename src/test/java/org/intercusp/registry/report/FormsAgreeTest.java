package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.MeasureReport;
import org.hl7.fhir.r4.model.Quantity;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.form.ReportForm;
import org.intercusp.registry.report.form.ReportMeasure;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** JSON, CSV, MeasureReport and page say the same, number by number. */
class FormsAgreeTest {

  @TempDir static Path cases;
  private static Report report;
  private static Map<String, String> expected;

  @BeforeAll
  static void make() throws Exception {
    OutcomeRows.write(cases, 4000, 12);
    report = Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30)));
    expected = new TreeMap<>();
    for (Figure figure : report.figures()) {
      String was =
          expected.put(
              key(figure),
              figure.value() == null
                  ? ""
                  // Twelve digits: the rest of a sum is chance.
                  : BigDecimal.valueOf(figure.value())
                      .round(new MathContext(12))
                      .stripTrailingZeros()
                      .toPlainString());
      assertThat(was).as("%s twice", key(figure)).isNull();
    }
  }

  private static String key(Figure figure) {
    return key(
        figure.measure().code(),
        figure.slice().dimension().code(),
        figure.slice().member(),
        figure.statistic().code());
  }

  private static String key(String... parts) {
    return String.join("|", parts);
  }

  private static String plain(String number) {
    return number.isEmpty() ? "" : new BigDecimal(number).stripTrailingZeros().toPlainString();
  }

  @Test
  void everyMeasureHasFiguresAndSomeAreHidden() {
    for (Measure measure : Measure.values()) {
      assertThat(report.of(measure)).as(measure.code()).isNotEmpty();
    }
    assertThat(report.figures())
        .anyMatch(Figure::hidden)
        .anyMatch(figure -> figure.value() != null);
  }

  @Test
  void json() {
    Map<String, String> found = new TreeMap<>();
    JsonNode root =
        JsonMapper.builder().build().readTree(ReportForm.JSON.write(report, Canonicals.RESERVED));
    for (JsonNode measure : root.get("measures")) {
      assertThat(measure.get("definition").asString()).isNotBlank();
      assertThat(measure.get("source").asString()).isNotBlank();
      for (JsonNode figure : measure.get("figures")) {
        found.put(
            key(
                measure.get("code").asString(),
                figure.get("dimension").asString(),
                figure.get("group").asString(),
                figure.get("statistic").asString()),
            figure.has("value") ? plain(figure.get("value").decimalValue().toPlainString()) : "");
      }
    }
    assertThat(found).isEqualTo(expected);
  }

  @Test
  void jsonFollowsItsSchema() throws Exception {
    Schema schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                Files.readString(Path.of("src/main/resources/schema/registry-report-1.json")),
                InputFormat.JSON);
    String json =
        new String(ReportForm.JSON.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8);
    assertThat(schema.validate(json, InputFormat.JSON)).isEmpty();
    assertThat(schema.validate(json.replace("\"unit\"", "\"units\""), InputFormat.JSON))
        .isNotEmpty();
  }

  @Test
  void csv() {
    Map<String, String> found = new TreeMap<>();
    List<List<String>> lines =
        Csv.read(
            new String(ReportForm.CSV.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8));
    for (List<String> line : lines.subList(1, lines.size())) {
      found.put(key(line.get(0), line.get(1), line.get(2), line.get(3)), plain(line.get(5)));
      assertThat(line.get(9)).isNotBlank();
      assertThat(line.get(10)).isNotBlank();
    }
    assertThat(found).isEqualTo(expected);
  }

  @Test
  void measureReport() {
    Map<String, String> found = new TreeMap<>();
    MeasureReport written = new ReportMeasure(Canonicals.RESERVED).write(report);
    for (var group : written.getGroup()) {
      String code = group.getCode().getCodingFirstRep().getCode();
      String measure = code.substring(0, code.indexOf('.'));
      String statistic = code.substring(code.indexOf('.') + 1);
      if (group.hasMeasureScore()) {
        found.put(key(measure, "all", "all", statistic), number(group.getMeasureScore()));
      }
      for (var stratifier : group.getStratifier()) {
        for (var stratum : stratifier.getStratum()) {
          found.put(
              key(
                  measure,
                  stratifier.getCodeFirstRep().getText(),
                  stratum.getValue().getText(),
                  statistic),
              number(stratum.getMeasureScore()));
        }
      }
    }
    assertThat(found).isEqualTo(expected);
  }

  private static String number(Quantity quantity) {
    return quantity.hasValue() ? plain(quantity.getValue().toPlainString()) : "";
  }

  @Test
  void page() {
    Map<String, String> found = new TreeMap<>();
    String html =
        new String(ReportForm.HTML.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8);
    Matcher tables =
        Pattern.compile(
                "<table data-measure=\"([^\"]+)\" data-dimension=\"([^\"]+)\">(.*?)</table>")
            .matcher(html);
    while (tables.find()) {
      List<String> statistics = new ArrayList<>();
      Matcher heads = Pattern.compile("data-statistic=\"([^\"]+)\"").matcher(tables.group(3));
      while (heads.find()) {
        statistics.add(heads.group(1));
      }
      Matcher rows =
          Pattern.compile("<tr><th scope=\"row\">(.*?)</th>(.*?)</tr>").matcher(tables.group(3));
      while (rows.find()) {
        Matcher cells = Pattern.compile("<td>(.*?)</td>").matcher(rows.group(2));
        for (String statistic : statistics) {
          assertThat(cells.find()).isTrue();
          Matcher value = Pattern.compile("<data value=\"([^\"]+)\">").matcher(cells.group(1));
          if (value.find() || cells.group(1).contains("absent")) {
            found.put(
                key(
                    tables.group(1),
                    tables.group(2),
                    rows.group(1).replace("&#39;", "'"),
                    statistic),
                cells.group(1).contains("absent") ? "" : plain(value.group(1)));
          }
        }
      }
    }
    assertThat(found).isEqualTo(expected);
    assertThat(html).doesNotContain("<script").doesNotContain(" style=");
  }

  @Test
  void charts() {
    String html =
        new String(ReportForm.HTML.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8);
    for (Measure measure : Measure.values()) {
      int at = html.indexOf("<section id=\"" + measure.code() + "\">");
      String section = html.substring(at, html.indexOf("</section>", at));
      assertThat(section)
          .as(measure.code())
          .contains("<svg class=\"chart\"")
          .contains("<figcaption ")
          .contains("<desc ");
    }
  }

  @Test
  void formulasDoNotRun() {
    Report hostile =
        new Report(
            report.question(),
            List.of(
                new Figure(
                    Measure.STANDING,
                    new Slice(Dimension.CLINIC, "=HYPERLINK(\"http://x\")"),
                    Statistic.count("cases", "Cases"),
                    7.0,
                    null)));
    String csv =
        new String(ReportForm.CSV.write(hostile, Canonicals.RESERVED), StandardCharsets.UTF_8);
    assertThat(Csv.read(csv).get(1).get(2)).startsWith("'=");
    String html =
        new String(
            ReportForm.HTML.write(
                new Report(
                    report.question(),
                    List.of(
                        new Figure(
                            Measure.STANDING,
                            new Slice(Dimension.CLINIC, "<script>x</script>"),
                            Statistic.count("cases", "Cases"),
                            7.0,
                            null))),
                Canonicals.RESERVED),
            StandardCharsets.UTF_8);
    assertThat(html).doesNotContain("<script");
  }

  /** RFC 4180, enough for the test. */
  private static final class Csv {
    static List<List<String>> read(String text) {
      List<List<String>> lines = new ArrayList<>();
      List<String> line = new ArrayList<>();
      Matcher cells =
          Pattern.compile("(?:\"((?:[^\"]|\"\")*)\"|([^,\"\\r\\n]*))(,|\\r\\n)").matcher(text);
      while (cells.find()) {
        line.add(
            cells.group(1) != null
                ? cells.group(1).replace("\"\"", "\"")
                : Objects.requireNonNull(cells.group(2)));
        if (!cells.group(3).equals(",")) {
          lines.add(line);
          line = new ArrayList<>();
        }
      }
      return lines;
    }
  }
}
