package org.intercusp.registry.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.intercusp.analysis.cohort.MixModel;
import org.jspecify.annotations.Nullable;

/**
 * Runs the report's SQL and brings back what the statistics need: counts and sums by group, days of
 * ends, pairs of scores, rows of the models. Nothing here knows a statistic, and nothing it brings
 * grows with the number of cases beyond the number of different patterns.
 */
public final class Gathering {

  private final RowSource source;
  private final ReportQuestion question;
  private Members members = Members.none();

  public Gathering(RowSource source, ReportQuestion question) {
    this.source = source;
    this.question = question;
  }

  /** Everything but the models. */
  public Gathered gather() {
    prepare();
    Map<String, Long> counting = new TreeMap<>();
    source.each("SELECT count(*) AS n FROM cases", row -> counting.put("rows", row.whole("n")));
    source.each(
        "SELECT why, count(*) AS n FROM dropped GROUP BY why",
        row -> counting.put(Objects.requireNonNull(row.text("why")), row.whole("n")));
    Map<String, Integer> known = new LinkedHashMap<>();
    List<String> fields = Cube.named("known");
    source.each(
        text("known"), row -> fields.forEach(name -> known.put(name, (int) row.whole(name))));
    List<Gathered.Twice> twice = new ArrayList<>();
    source.each(
        text("agreement").replace("{until}", until()),
        row ->
            twice.add(
                new Gathered.Twice(
                    (int) row.whole("first_score"),
                    (int) row.whole("again_score"),
                    (int) row.whole("cases"))));
    return new Gathered(counting, cube(), known, ends("ends"), ends("attended"), twice);
  }

  private Cube cube() {
    Cube cube = new Cube();
    cells(cube, List.of(Dimension.APPLIANCE, Dimension.AGE, Dimension.GROWTH), true);
    cells(cube, List.of(Dimension.YEAR, Dimension.CLINIC), false);
    for (Dimension dimension : Dimension.SPLITS) {
      source.each(
          grouped("harms", dimension),
          row -> {
            Slice slice = members.slice(dimension, row.whole("member"));
            double cases = row.number("cases");
            for (String column : Harms.of(row.whole("harms"))) {
              cube.add(slice, column, cases);
              if (dimension == Dimension.APPLIANCE) {
                cube.add(Slice.ALL, column, cases);
              }
            }
          });
    }
    return cube;
  }

  /**
   * Adds the cells of some dimensions together.
   *
   * @param whole whether all cases are added up from these
   */
  private void cells(Cube cube, List<Dimension> dimensions, boolean whole) {
    String groups =
        dimensions.stream().map(Dimension::column).collect(Collectors.joining(", "))
            + (whole ? ", completed" : "");
    source.each(
        text("cells").replace("{groups}", groups),
        row -> {
          List<Slice> slices = new ArrayList<>();
          for (Dimension dimension : dimensions) {
            slices.add(members.slice(dimension, row.whole(dimension.column())));
          }
          if (whole) {
            slices.add(Slice.ALL);
          }
          cube.addCell(row, slices, whole && row.whole("completed") == 1);
        });
  }

  private static String grouped(String name, Dimension dimension) {
    return text(name).replace("{group}", dimension.column());
  }

  /** All cases by the day, groups by the week. */
  private List<Gathered.Ends> ends(String name) {
    List<Gathered.Ends> found = new ArrayList<>();
    source.each(
        text(name),
        row ->
            found.add(
                new Gathered.Ends(
                    Slice.ALL,
                    Standing.numbered(row.whole("standing")),
                    row.whole("long_enough") == 1,
                    row.has("day") ? (int) row.whole("day") : Gathered.Ends.UNDATED,
                    (int) row.whole("cases"))));
    for (Dimension dimension : Dimension.SPLITS) {
      source.each(
          grouped("group_" + name, dimension),
          row ->
              found.add(
                  Gathered.Ends.weekly(
                      members.slice(dimension, row.whole("member")),
                      (int) row.whole("ending"),
                      (int) row.whole("cases"))));
    }
    return found;
  }

  /** Cases of an outcome's model by what they brought with them; call after {@link #gather()}. */
  public List<MixModel.Pattern> patterns(MixOutcome outcome) {
    source.view("mixed", text(outcome.query()));
    List<MixModel.Pattern> patterns = new ArrayList<>();
    source.each(
        text("patterns"),
        row ->
            patterns.add(
                new MixModel.Pattern(
                    MixOutcome.COVARIATES.stream()
                        .map(each -> row.number(each.column()) / each.unit())
                        .toList(),
                    (int) row.whole("happened"),
                    (int) row.whole("cases"))));
    return patterns;
  }

  /** What a model expects of each clinic. */
  public List<Gathered.Expected> expected(MixOutcome outcome, MixModel model) {
    source.view("mixed", text(outcome.query()));
    source.view(
        "foretold",
        "SELECT clinic, happened, 1 / (1 + exp(-("
            + logOdds(model)
            + "))) AS probability FROM mixed");
    List<Gathered.Expected> expected = new ArrayList<>();
    source.each(
        text("expected"),
        row ->
            expected.add(
                new Gathered.Expected(
                    members.slice(Dimension.CLINIC, row.whole("clinic")),
                    (int) row.whole("cases"),
                    (int) row.whole("happened"),
                    row.number("expected"),
                    row.number("variance"))));
    return expected;
  }

  private static String logOdds(MixModel model) {
    StringBuilder sum = new StringBuilder();
    for (MixModel.Term term : model.terms()) {
      // In scientific form every engine reads a double and none a decimal.
      sum.append(sum.isEmpty() ? "" : " + ")
          .append('(')
          .append(String.format(Locale.ROOT, "%.17e", term.coefficient()))
          .append(')');
      MixOutcome.covariate(term.name())
          .ifPresent(
              each ->
                  sum.append(" * ")
                      .append(each.column())
                      .append(" / ")
                      .append(String.format(Locale.ROOT, "%.1e", each.unit())));
    }
    return sum.toString();
  }

  /** What the queries read from: all that needs the rows is read once and kept as numbers. */
  private void prepare() {
    members = Members.numbered(source);
    source.keep("calendar", new FittingCalendar(question).sql(fittingMonths()));
    source.keep("identity", text("identity"));
    source.keep("dropped", text("dropped"));
    source.forget("identity");
    source.view("counted", text("counted"));
    source.view("scored", scored());
    source.keep("courses", text("courses"));
    source.view("paired", text("paired"));
    source.view("fields", text("fields"));
  }

  /** The month of the cut-off; a period is named by its first month. */
  private String until() {
    return YearMonth.from(question.cutOff()).toString();
  }

  /** The scores as they are known at the cut-off; to look costs nothing where none is later. */
  private String scored() {
    String[] scored = {text("scored")};
    source.each(
        "SELECT max(start_month) AS last_start, max(end_month) AS last_end FROM cases",
        row -> {
          scored[0] = scored[0].replace("{start}", known("start_month", row.text("last_start")));
          scored[0] = scored[0].replace("{end}", known("end_month", row.text("last_end")));
        });
    return scored[0];
  }

  private String known(String month, @Nullable String last) {
    return last == null || last.compareTo(until()) <= 0
        ? ""
        : "+ CASE WHEN " + month + " > '" + until() + "' THEN NULL ELSE 0 END";
  }

  private List<YearMonth> fittingMonths() {
    List<YearMonth> months = new ArrayList<>();
    source.each(
        "SELECT DISTINCT first_fitted_month AS month FROM cases"
            + " WHERE first_fitted_month IS NOT NULL",
        row -> months.add(YearMonth.parse(Objects.requireNonNull(row.text("month")))));
    return months;
  }

  static String text(String name) {
    try (InputStream in =
        Gathering.class.getResourceAsStream("/org/intercusp/registry/report/" + name + ".sql")) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException fault) {
      throw new UncheckedIOException(fault);
    }
  }
}
