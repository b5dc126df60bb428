package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.form.ReportForm;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A clinic that knows too little of its cases is shown and not judged. C000 scored one end in five,
 * C009 all but one in seven, and C001 has ages of half its cases.
 */
class NotJudgedTest {

  private static final Slice SILENT = new Slice(Dimension.CLINIC, "urn:clinics|C000");
  private static final Slice AGELESS = new Slice(Dimension.CLINIC, "urn:clinics|C001");
  private static final Slice DILIGENT = new Slice(Dimension.CLINIC, "urn:clinics|C009");

  @TempDir static Path cases;
  private static Report report;

  @BeforeAll
  static void make() throws Exception {
    OutcomeRows.write(cases, 5000, 12);
    OutcomeRows.change(
        cases,
        "CASE WHEN clinic LIKE '%C000' AND sequence % 5 > 0 THEN NULL"
            + " WHEN clinic LIKE '%C009' AND sequence % 7 > 0"
            + " THEN coalesce(end_par_ua, 1)"
            + " ELSE end_par_ua END AS end_par_ua,"
            + part("la")
            + part("br")
            + part("bl")
            + part("oj")
            + part("ob")
            + part("cl")
            + " CASE WHEN clinic LIKE '%C001' AND sequence % 4 = 1 THEN NULL"
            + " ELSE age_months END AS age_months");
    // So late that whoever ended had ended by then.
    report = Reports.over(cases).of(new ReportQuestion(LocalDate.of(2030, 1, 1), 1));
  }

  private static String part(String name) {
    String column = "end_par_" + name;
    return " CASE WHEN clinic LIKE '%C009' THEN coalesce("
        + column
        + ", 0) ELSE "
        + column
        + " END AS "
        + column
        + ",";
  }

  private static Figure figure(Measure measure, Slice slice, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(slice) && each.statistic().code().equals(statistic))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> codes(Measure measure, Slice slice) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(slice))
        .map(each -> each.statistic().code())
        .toList();
  }

  @Test
  void fewEndScoresAreShownAndNotJudged() {
    Measure funnel = Measure.FUNNEL_GREATLY;
    assertThat(figure(funnel, SILENT, "known").value()).isLessThan(50);
    assertThat(figure(funnel, SILENT, "share").value()).isPositive();
    assertThat(figure(funnel, SILENT, "z").absent()).isEqualTo(Compared.NOT_JUDGED);
    assertThat(codes(funnel, SILENT)).doesNotContain("exact-95-low");
    assertThat(figure(Measure.MIX_GREATLY, SILENT, "adjusted").value()).isPositive();
    assertThat(figure(Measure.MIX_GREATLY, SILENT, "z").absent()).isEqualTo(Compared.NOT_JUDGED);
    // Its ends are known, only its scores are not.
    assertThat(figure(Measure.FUNNEL_DISCONTINUED, SILENT, "z").value()).isNotNull();
    assertThat(figure(Measure.MIX_DISCONTINUED, SILENT, "z").value()).isNotNull();
  }

  @Test
  void enoughEndScoresAreJudged() {
    assertThat(figure(Measure.FUNNEL_GREATLY, DILIGENT, "known").value()).isBetween(80.0, 99.99);
    assertThat(figure(Measure.FUNNEL_GREATLY, DILIGENT, "z").value()).isNotNull();
    assertThat(figure(Measure.MIX_GREATLY, DILIGENT, "z").value()).isNotNull();
    assertThat(codes(Measure.FUNNEL_GREATLY, DILIGENT)).contains("exact-95-low");
  }

  @Test
  void casesTheModelLacksAreNotKnownToIt() {
    assertThat(figure(Measure.FUNNEL_DISCONTINUED, AGELESS, "z").value()).isNotNull();
    assertThat(figure(Measure.MIX_DISCONTINUED, AGELESS, "z").absent())
        .isEqualTo(Compared.NOT_JUDGED);
  }

  @Test
  void knownIsOfTheEndedAndTheScored() throws Exception {
    String large =
        "start_par_ua + start_par_la + start_par_br + start_par_bl + 6 * start_par_oj"
            + " + 2 * start_par_ob + 4 * start_par_cl >= 22";
    String scored =
        "end_par_ua + end_par_la + end_par_br + end_par_bl + end_par_oj + end_par_ob + end_par_cl"
            + " IS NOT NULL";
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      new Gathering(rows, report.question()).gather();
      rows.each(
          "SELECT count(*) FILTER (WHERE "
              + scored
              + ") AS scored, count(*) FILTER (WHERE "
              + scored
              + " OR status NOT IN ('in-treatment', 'transferred')) AS due FROM counted WHERE clinic = '"
              + SILENT.member()
              + "' AND "
              + large,
          row ->
              assertThat(figure(Measure.FUNNEL_GREATLY, SILENT, "known").value())
                  .isEqualTo(100.0 * row.whole("scored") / row.whole("due")));
    }
  }

  @Test
  void onlyTheJudgedCountTowardsTheLimits() {
    long judged =
        report.of(Measure.FUNNEL_GREATLY).stream()
            .filter(each -> each.slice().dimension() == Dimension.CLINIC)
            .filter(each -> each.statistic().code().equals("z") && each.value() != null)
            .count();
    assertThat(figure(Measure.FUNNEL_GREATLY, Slice.ALL, "clinics").value())
        .isEqualTo((double) judged)
        .isLessThan(12);
  }

  @Test
  void everyFormMarksIt() {
    for (ReportForm form : List.of(ReportForm.JSON, ReportForm.CSV, ReportForm.TEXT)) {
      assertThat(new String(form.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8))
          .as(form.name())
          .contains(Compared.NOT_JUDGED);
    }
    String page =
        new String(ReportForm.HTML.write(report, Canonicals.RESERVED), StandardCharsets.UTF_8);
    String section = page.substring(page.indexOf("<section id=\"funnel-greatly-improved\">"));
    String funnel = section.substring(0, section.indexOf("</section>"));
    assertThat(funnel).contains(Compared.NOT_JUDGED);
    // Once in the legend, and once for each such clinic.
    assertThat(funnel.split("dot unjudged", -1).length - 2).isPositive();
  }
}
