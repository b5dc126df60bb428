package org.intercusp.registry.report.form;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Measure;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.Slice;
import org.jspecify.annotations.Nullable;

/** Which charts a measure has, drawn from its figures and nothing else. */
final class ReportCharts {

  private static final List<String> LIMITS =
      List.of(
          "exact-95-low",
          "exact-95-high",
          "exact-998-low",
          "exact-998-high",
          "normal-95-low",
          "normal-95-high",
          "normal-998-low",
          "normal-998-high");

  private final Report report;

  ReportCharts(Report report) {
    this.report = report;
  }

  List<String> of(Measure measure) {
    List<String> charts =
        switch (measure) {
          case COUNTING ->
              List.of(
                  ownBars(
                      measure,
                      List.of(
                          "counted",
                          "corrected",
                          "second-submitter",
                          "transferred-on",
                          "same-fitting",
                          "not-begun")));
          case STANDING ->
              List.of(
                  ownBars(
                      measure,
                      List.of("going-on", "completed", "discontinued", "transferred", "unknown")));
          case PAR_UK, PAR_US, PAR_UK_COMPLETED, PAR_US_COMPLETED ->
              List.of(
                  dots(measure, "percent", "Mean of percentages"),
                  dots(measure, "percent-of-sums", "Percentage of sums"),
                  ownBars(
                      measure, List.of("greatly-improved", "improved", "worse-or-no-different")));
          case DHC ->
              List.of(
                  ownBars(measure, List.of("better", "same", "worse")),
                  dots(measure, "need-at-start-share", "In need at start"),
                  dots(measure, "need-at-end-share", "In need at end"));
          case ICON ->
              List.of(
                  dots(measure, "change", "Change"),
                  ownBars(
                      measure,
                      List.of(
                          "greatly-improved",
                          "substantially-improved",
                          "moderately-improved",
                          "minimally-improved",
                          "not-improved-or-worse")));
          case OVERJET, OVERBITE -> List.of(dots(measure, "change", "Change"));
          case LENGTH ->
              List.of(
                  dots(measure, "median-a", "Median, curve A"),
                  dots(measure, "median-b", "Median, curve B"));
          case LENGTH_CURVE -> List.of(curves(measure));
          case DISCONTINUATION ->
              List.of(
                  dots(measure, "discontinued-share", "Of all"),
                  dots(measure, "of-known", "Of known ends"));
          case WEAR_REPORTED, WEAR_MEASURED -> List.of(dots(measure, "mean", "Mean"));
          case BREAKAGES -> List.of(dots(measure, "with-breakage-share", "With a breakage"));
          case HARMS -> List.of(kinds(measure), dots(measure, "any-share", "Any event"));
          case FUNNEL_DISCONTINUED, FUNNEL_GREATLY -> List.of(funnel(measure));
          case MIX_DISCONTINUED, MIX_GREATLY ->
              List.of(dots(measure, "adjusted", "Adjusted rate"), terms(measure));
          case AGREEMENT -> List.of(agreement(measure));
          case COMPLETENESS -> List.of(dots(measure, "share", "Present"));
        };
    return charts.stream().filter(chart -> !chart.isEmpty()).toList();
  }

  private Map<Slice, Map<String, Double>> values(Measure measure) {
    Map<Slice, Map<String, Double>> values = new LinkedHashMap<>();
    for (Figure figure : report.of(measure)) {
      if (figure.value() != null) {
        values
            .computeIfAbsent(figure.slice(), fresh -> new LinkedHashMap<>())
            .put(figure.statistic().code(), figure.value());
      }
    }
    return values;
  }

  private String dots(Measure measure, String statistic, String title) {
    List<Charts.Dot> dots = new ArrayList<>();
    Map<Slice, Map<String, Double>> values = values(measure);
    Labels labels = new Labels(values.keySet());
    values.forEach(
        (slice, row) -> {
          @Nullable Double value = row.get(statistic);
          if (value != null) {
            dots.add(
                new Charts.Dot(
                    labels.of(slice),
                    value,
                    row.get(statistic + "-low"),
                    row.get(statistic + "-high")));
          }
        });
    String unit =
        report.of(measure).stream()
            .filter(each -> each.statistic().code().equals(statistic))
            .map(each -> each.statistic().unit())
            .findFirst()
            .orElse("");
    return dots.isEmpty()
        ? ""
        : Charts.dots(
            id(measure, statistic),
            measure.title() + ": " + title,
            Units.shown(unit),
            "95 % intervals",
            dots);
  }

  private String ownBars(Measure measure, List<String> parts) {
    List<Charts.Bar> bars = new ArrayList<>();
    Map<Slice, Map<String, Double>> values = values(measure);
    Labels labels = new Labels(values.keySet());
    values.forEach(
        (slice, row) -> {
          if (row.keySet().containsAll(parts)) {
            bars.add(
                new Charts.Bar(
                    labels.of(slice),
                    parts.stream().map(part -> row.getOrDefault(part, 0.0)).toList()));
          }
        });
    List<String> titles = parts.stream().map(part -> title(measure, part)).toList();
    return bars.isEmpty() ? "" : Charts.bars(id(measure, "parts"), measure.title(), titles, bars);
  }

  private String title(Measure measure, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.statistic().code().equals(statistic))
        .map(each -> each.statistic().title())
        .findFirst()
        .orElse(statistic);
  }

  private String kinds(Measure measure) {
    Map<String, Double> all = values(measure).getOrDefault(Slice.ALL, Map.of());
    List<Charts.Dot> dots = new ArrayList<>();
    all.forEach(
        (code, value) -> {
          if (code.endsWith("-share")) {
            dots.add(
                new Charts.Dot(
                    code.substring(0, code.length() - "-share".length()),
                    value,
                    all.get(code + "-low"),
                    all.get(code + "-high")));
          }
        });
    return dots.isEmpty()
        ? ""
        : Charts.dots(
            id(measure, "kinds"),
            measure.title() + ", by kind, all cases",
            "% of cases",
            "95 % intervals",
            dots);
  }

  private String terms(Measure measure) {
    List<Charts.Dot> dots = new ArrayList<>();
    values(measure)
        .forEach(
            (slice, row) -> {
              @Nullable Double value = row.get("coefficient");
              @Nullable Double error = row.get("standard-error");
              if (slice.dimension() == Dimension.TERM && value != null && error != null) {
                dots.add(
                    new Charts.Dot(
                        slice.member(), value, value - 1.96 * error, value + 1.96 * error));
              }
            });
    return dots.isEmpty()
        ? ""
        : Charts.dots(
            id(measure, "terms"),
            measure.title() + ": terms of the model",
            "log odds",
            "95 % intervals",
            dots);
  }

  private String agreement(Measure measure) {
    Map<String, Double> all = values(measure).getOrDefault(Slice.ALL, Map.of());
    @Nullable Double bias = all.get("bias");
    return bias == null
        ? ""
        : Charts.dots(
            id(measure, "limits"),
            measure.title() + ": bias",
            "points",
            "limits of agreement",
            List.of(new Charts.Dot("bias", bias, all.get("limit-low"), all.get("limit-high"))));
  }

  private String curves(Measure measure) {
    Map<Slice, Map<String, Double>> values = values(measure);
    List<Charts.Curve> curves = new ArrayList<>();
    for (String code : List.of("a", "b", "completed")) {
      List<Charts.Point> points = new ArrayList<>();
      values.forEach(
          (slice, row) -> {
            @Nullable Double share = row.get(code);
            if (share != null) {
              points.add(
                  new Charts.Point(
                      Double.parseDouble(slice.member()),
                      share,
                      row.get(code + "-low"),
                      row.get(code + "-high")));
            }
          });
      curves.add(new Charts.Curve(title(measure, code), points));
    }
    return values.isEmpty() ? "" : Charts.curves(id(measure, "curves"), measure.title(), curves);
  }

  private String funnel(Measure measure) {
    Map<Slice, Map<String, Double>> values = values(measure);
    @Nullable Double centre = values.getOrDefault(Slice.ALL, Map.of()).get("centre");
    List<Charts.Clinic> clinics = new ArrayList<>();
    values.forEach(
        (slice, row) -> {
          @Nullable Double cases = row.get("cases");
          @Nullable Double share = row.get("share");
          if (slice.dimension() == Dimension.CLINIC && cases != null && share != null) {
            clinics.add(
                new Charts.Clinic(
                    cases,
                    share,
                    LIMITS.stream().flatMap(limit -> Stream.ofNullable(row.get(limit))).toList()));
          }
        });
    return centre == null || clinics.isEmpty()
        ? ""
        : Charts.funnel(id(measure, "funnel"), measure.title(), centre, clinics);
  }

  private static String id(Measure measure, String chart) {
    return "chart-" + measure.code() + "-" + chart;
  }
}
