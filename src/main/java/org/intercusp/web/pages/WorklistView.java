package org.intercusp.web.pages;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.worklist.Attention;
import org.intercusp.worklist.Found;
import org.intercusp.worklist.Order;
import org.intercusp.worklist.Wish;

/**
 * A page of the list in words.
 *
 * @param number of the page, from 1
 * @param pages how many there are
 */
public record WorklistView(
    String words,
    List<Filter> filters,
    List<Sorting> orders,
    List<WorklistRow> rows,
    Found found,
    String show,
    String sort,
    int number,
    int pages) {

  /** A filter with how many it leaves. */
  public record Filter(String href, String title, long count, boolean chosen) {}

  /** A way to sort. */
  public record Sorting(String code, String title, boolean chosen) {}

  static WorklistView of(Wish wish, Found found, int number, int length, LocalDate today) {
    Attention attention = wish.attention();
    return new WorklistView(
        wish.words(),
        filters(wish, found),
        Stream.of(Order.values())
            .map(each -> new Sorting(each.code(), title(each), each == wish.order()))
            .toList(),
        found.page().stream().map(each -> WorklistRow.of(each, found.clinics(), today)).toList(),
        found,
        attention == null ? "" : attention.code(),
        wish.order() == Order.ATTENTION ? "" : wish.order().code(),
        number,
        (int) Math.max(1, (found.matches() + length - 1) / length));
  }

  private static List<Filter> filters(Wish wish, Found found) {
    Stream<Filter> reasons =
        Stream.of(Attention.values())
            .map(
                each ->
                    new Filter(
                        place(wish, each.code()).toString(),
                        title(each),
                        found.counts().getOrDefault(each, 0L),
                        each == wish.attention()));
    Filter all =
        new Filter(place(wish, "").toString(), "All", found.all(), wish.attention() == null);
    return Stream.concat(Stream.of(all), reasons).toList();
  }

  private static Place place(Wish wish, String show) {
    return Place.of()
        .with("q", wish.words())
        .with("show", show)
        .with("sort", wish.order() == Order.ATTENTION ? "" : wish.order().code());
  }

  /** The address of another page of the same list. */
  public String page(int other) {
    return Place.of()
        .with("q", words)
        .with("show", show)
        .with("sort", sort)
        .with("page", "" + other)
        .toString();
  }

  private static String title(Attention attention) {
    return switch (attention) {
      case URGENT -> "Sign of harm";
      case ERRORS -> "Errors to answer";
      case OVERDUE -> "Review overdue";
      case DELIVERY -> "Delivery stuck";
      case PROPOSAL -> "Changed elsewhere";
      case ANY -> "Any of these";
    };
  }

  private static String title(Order order) {
    return switch (order) {
      case ATTENTION -> "What needs attention";
      case NAME -> "Name";
      case ID -> "Treatment number";
      case REVIEW -> "Next review";
      case OVERJET -> "Largest overjet";
      case NEWEST -> "Last stored";
    };
  }

  /** What was looked for and found, in one sentence. */
  public String said() {
    String what = found.matches() == 1 ? "1 treatment" : found.matches() + " treatments";
    String where = words.isBlank() ? "" : " with “" + words.strip() + "”";
    return pages > 1 ? what + where + ", page " + number + " of " + pages : what + where;
  }

  public boolean narrowed() {
    return !words.isBlank() || !show.isEmpty();
  }
}
