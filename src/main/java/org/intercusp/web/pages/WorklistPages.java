package org.intercusp.web.pages;

import java.time.Clock;
import java.time.LocalDate;
import java.util.stream.Stream;
import org.intercusp.worklist.Attention;
import org.intercusp.worklist.Found;
import org.intercusp.worklist.Order;
import org.intercusp.worklist.Wish;
import org.intercusp.worklist.Worklist;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The list of treatments: who needs attention. */
@Controller
class WorklistPages {

  /** Treatments on one page; common practice, no source. */
  private static final int LENGTH = 25;

  /** So that the place of a page can be counted; our own, no source. */
  private static final int LAST_PAGE = 1_000_000;

  private final Worklist worklist;
  private final Clock clock;

  WorklistPages(Worklist worklist, Clock clock) {
    this.worklist = worklist;
    this.clock = clock;
  }

  /** What stands in the address is a wish: what it does not know is taken as not said. */
  @GetMapping(path = "/", produces = MediaType.TEXT_HTML_VALUE)
  String home(
      @RequestParam(defaultValue = "") String q,
      @RequestParam(defaultValue = "") String show,
      @RequestParam(defaultValue = "") String sort,
      @RequestParam(defaultValue = "1") String page,
      Model model) {
    Attention attention = attention(show);
    Order order = order(sort);
    int number = number(page);
    Wish wish = new Wish(q, attention, order, (number - 1) * LENGTH, LENGTH);
    Found found = worklist.find(wish);
    model.addAttribute("list", WorklistView.of(wish, found, number, LENGTH, LocalDate.now(clock)));
    return "home";
  }

  private static @Nullable Attention attention(String code) {
    return Stream.of(Attention.values())
        .filter(each -> each.code().equals(code))
        .findFirst()
        .orElse(null);
  }

  private static Order order(String code) {
    return Stream.of(Order.values())
        .filter(each -> each.code().equals(code))
        .findFirst()
        .orElse(Order.ATTENTION);
  }

  private static int number(String page) {
    return page.matches("[1-9][0-9]{0,6}") ? Math.min(Integer.parseInt(page), LAST_PAGE) : 1;
  }
}
