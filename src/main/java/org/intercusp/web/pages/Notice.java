package org.intercusp.web.pages;

import java.util.List;

/**
 * What a page says first: that something was done, or why it was not.
 *
 * @param style {@code done} or {@code stop}
 * @param points each with the anchor of what it is about, or none
 */
public record Notice(String style, String title, List<Point> points) {

  /** One reason; the anchor is empty where it is about nothing on the page. */
  public record Point(String words, String anchor) {}

  public Notice {
    points = List.copyOf(points);
  }

  static Notice done(String title) {
    return new Notice("done", title, List.of());
  }

  static Notice stop(String title, List<Point> points) {
    return new Notice("stop", title, points);
  }

  static Notice stop(String title) {
    return stop(title, List.of());
  }

  /** What an address says was done; nothing else it says is shown. */
  static List<Notice> of(String code) {
    return switch (code) {
      case "accepted" -> List.of(done("The finding is accepted and stored as a new version."));
      case "withdrawn" ->
          List.of(done("The acceptance is withdrawn; the finding counts again, in a new version."));
      case "queued" -> List.of(done("The treatment is on its way; its state stands below."));
      case "existing" ->
          List.of(done("This version had been asked for before; nothing was sent twice."));
      case "taken" ->
          List.of(done("It is accepted; where it changed the file, that is a new version."));
      case "declined" ->
          List.of(done("It is declined and comes again only if the recipient changes it again."));
      case "taken-deleted" ->
          List.of(done("It stays deleted there. A delivery that it held can be tried again."));
      case "declined-deleted" ->
          List.of(
              done("The next delivery sends it again. One that it held can be tried again now."));
      case "retried" -> List.of(done("It is being tried again."));
      default -> List.of();
    };
  }
}
