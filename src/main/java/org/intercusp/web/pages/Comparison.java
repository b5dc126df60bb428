package org.intercusp.web.pages;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.finding.Figure;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.api.Intake;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * What changed from one version to another.
 *
 * @param changes in the record, in its order
 * @param appeared findings that were not there before, or are judged otherwise now
 * @param cleared findings that are not there any more
 * @param figures that are another now
 */
public record Comparison(
    String id,
    String name,
    Version before,
    Version after,
    List<RecordChange> changes,
    List<String> appeared,
    List<String> cleared,
    List<FigureChange> figures) {

  private static final JsonMapper JSON =
      JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();

  /** A version with its time and the day it was judged at. */
  public record Version(int number, String received, String judged) {}

  /** A figure before and after. */
  public record FigureChange(String group, String name, String before, String after) {}

  static Comparison of(Intake intake, StoredTreatment before, StoredTreatment after) {
    Treatment one = intake.treatment(before);
    Treatment two = intake.treatment(after);
    Examination first = intake.examine(one);
    Examination second = intake.examine(two);
    return new Comparison(
        two.id(),
        two.patient().name(),
        version(before, first),
        version(after, second),
        RecordChange.between(JSON.readTree(before.content()), JSON.readTree(after.content())),
        missing(second.findings(), first.findings()),
        missing(first.findings(), second.findings()),
        figures(two, first.figures(), second.figures()));
  }

  private static Version version(StoredTreatment stored, Examination examination) {
    return new Version(
        stored.version(), DeliveryView.time(stored.receivedAt()), examination.on().toString());
  }

  /** In words, those of the one list that the other does not hold. */
  private static List<String> missing(List<Judged> from, List<Judged> in) {
    List<String> there = in.stream().map(Comparison::said).toList();
    return from.stream().map(Comparison::said).filter(said -> !there.contains(said)).toList();
  }

  private static String said(Judged judged) {
    return Trade.title(judged.finding().severity().code())
        + (judged.accepted() ? ", accepted: " : ": ")
        + judged.finding().message();
  }

  private static List<FigureChange> figures(
      Treatment treatment, List<Figure> before, List<Figure> after) {
    Map<List<String>, Figure> old = keyed(before);
    Map<List<String>, Figure> now = keyed(after);
    List<FigureChange> changes = new ArrayList<>();
    Map<List<String>, Figure> all = new LinkedHashMap<>(now);
    old.forEach(all::putIfAbsent);
    all.keySet()
        .forEach(
            key -> {
              String was = shown(old.get(key));
              String is = shown(now.get(key));
              if (!Objects.equals(was, is)) {
                Figure figure = Objects.requireNonNull(all.get(key));
                changes.add(
                    new FigureChange(
                        FigureGroup.title(treatment, figure.subject()),
                        new FigureView(figure).name(),
                        was,
                        is));
              }
            });
    return changes;
  }

  private static Map<List<String>, Figure> keyed(List<Figure> figures) {
    Map<List<String>, Figure> keyed = new LinkedHashMap<>();
    figures.forEach(figure -> keyed.put(List.of(figure.subject(), figure.name()), figure));
    return keyed;
  }

  private static String shown(@Nullable Figure figure) {
    return figure == null ? "" : FigureView.shown(figure);
  }

  /** Whether nothing at all is another. */
  public boolean same() {
    return changes.isEmpty() && appeared.isEmpty() && cleared.isEmpty() && figures.isEmpty();
  }
}
