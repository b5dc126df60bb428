package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.registry.report.form.ReportPage;
import org.intercusp.registry.report.form.ReportText;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a person reads in the report: charts that say what they show, tables that fit on paper. */
class ReportReadTest {

  @TempDir static Path cases;
  private static Report report;

  @BeforeAll
  static void make() throws Exception {
    OutcomeRows.write(cases, 2000, 6);
    report = Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30)));
  }

  @Test
  void eachChartSaysWhatNoOtherDoes() {
    List<String> captions = new ArrayList<>();
    Matcher caption =
        Pattern.compile("<figcaption [^>]*>([^<]+)<").matcher(ReportPage.content(report));
    while (caption.find()) {
      captions.add(caption.group(1));
    }
    assertThat(captions).hasSizeGreaterThan(25).doesNotHaveDuplicates();
  }

  /** A table wider than a sheet of paper would be cut off on it. */
  @Test
  void tablesFitOnPaper() {
    String html = ReportPage.content(report);
    Matcher heads = Pattern.compile("<thead>(.*?)</thead>").matcher(html);
    int tables = 0;
    while (heads.find()) {
      tables++;
      assertThat(heads.group(1).split("<th ", -1).length - 1).isLessThanOrEqualTo(13);
    }
    List<String> names = new ArrayList<>();
    Matcher name = Pattern.compile("role=\"region\" aria-label=\"([^\"]+)\"").matcher(html);
    while (name.find()) {
      names.add(name.group(1));
    }
    assertThat(names).hasSize(tables).doesNotHaveDuplicates();
  }

  @Test
  void saysWhatIsHidden() {
    for (Map.Entry<Integer, String> each :
        Map.of(
                1,
                "No count is hidden.",
                2,
                "Counts of 1 are hidden",
                5,
                "Counts from 1 to 4 are hidden")
            .entrySet()) {
      Report one =
          new Report(new ReportQuestion(LocalDate.of(2026, 6, 30), each.getKey()), List.of());
      assertThat(ReportPage.content(one)).contains(each.getValue());
      assertThat(ReportText.write(one)).contains(each.getValue());
    }
  }
}
