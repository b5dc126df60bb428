package org.intercusp.web.pages;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.finding.Figure;
import org.intercusp.treatment.Treatment;

/**
 * The figures of one element of the record.
 *
 * @param lacking those for which a reading is missing
 */
public record FigureGroup(String title, List<FigureView> known, List<FigureView> lacking) {

  /** In the order of the record. */
  static List<FigureGroup> of(Treatment treatment, List<Figure> figures) {
    Map<String, String> titles = titles(treatment);
    Map<String, List<Figure>> grouped = new LinkedHashMap<>();
    for (Figure figure : figures) {
      String title = titles.getOrDefault(figure.subject(), "Of " + figure.subject());
      grouped.computeIfAbsent(title, each -> new java.util.ArrayList<>()).add(figure);
    }
    return grouped.entrySet().stream()
        .map(entry -> group(entry.getKey(), entry.getValue()))
        .toList();
  }

  /** What the figures of an element stand under. */
  static String title(Treatment treatment, String subject) {
    return titles(treatment).getOrDefault(subject, "Of " + subject);
  }

  private static FigureGroup group(String title, List<Figure> figures) {
    List<FigureView> views = figures.stream().map(FigureView::new).toList();
    return new FigureGroup(
        title,
        views.stream().filter(FigureView::known).toList(),
        views.stream().filter(view -> !view.known()).toList());
  }

  private static Map<String, String> titles(Treatment treatment) {
    Map<String, String> titles = new LinkedHashMap<>();
    titles.put(treatment.id(), "Patient, progress and next visit");
    treatment
        .bites()
        .forEach(bite -> titles.put(bite.id(), "Construction bite of " + bite.recordedOn()));
    treatment
        .appliances()
        .forEach(
            one ->
                titles.put(
                    one.id(), Trade.title(one.type().code()) + " ordered on " + one.orderedOn()));
    treatment
        .stages()
        .forEach(one -> titles.put(one.id(), Trade.title(one.kind().code()) + " stage"));
    treatment.reviews().forEach(one -> titles.put(one.id(), "Review of " + one.date()));
    treatment.films().forEach(one -> titles.put(one.id(), "Film of " + one.takenOn()));
    treatment.models().forEach(one -> titles.put(one.id(), "Study model of " + one.takenOn()));
    treatment
        .outcomes()
        .forEach(
            one ->
                titles.put(
                    one.id(), "Outcome, " + Trade.words(one.phase().code()) + ", " + one.date()));
    return titles;
  }

  /** How many readings are missing, in words. */
  public String missing() {
    return lacking.size() == 1
        ? "1 figure lacks a reading"
        : lacking.size() + " figures lack readings";
  }
}
