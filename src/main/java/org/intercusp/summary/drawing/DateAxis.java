package org.intercusp.summary.drawing;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import javax.xml.stream.XMLStreamException;

/** Days laid out from left to right, with a tick at the first of a month. */
record DateAxis(LocalDate from, LocalDate to, double left, double right) {

  DateAxis {
    to = to.isAfter(from) ? to : from.plusDays(1);
  }

  double at(LocalDate day) {
    double share = ChronoUnit.DAYS.between(from, day) / (double) days();
    return left + Math.max(0, Math.min(1, share)) * (right - left);
  }

  private long days() {
    return ChronoUnit.DAYS.between(from, to);
  }

  /** Ticks and their months, no closer than they can be read. */
  void ticks(Svg svg, double y) throws XMLStreamException {
    svg.line(new Spot(left, y), new Spot(right, y), Ink.LINE, 0.35);
    int months = step();
    LocalDate tick = from.withDayOfMonth(1).plusMonths(1);
    while (!tick.isAfter(to)) {
      double x = at(tick);
      svg.line(new Spot(x, y), new Spot(x, y + 1.2), Ink.LINE, 0.35);
      String words = tick.toString().substring(0, 7);
      if (x - left > 4 && right - x > 4) {
        svg.text(new Spot(x, y + 4), "middle", words, Svg.SMALL);
      }
      tick = tick.plusMonths(months);
    }
  }

  private int step() {
    double needed = days() / 30.4 * 14 / (right - left);
    for (int months : new int[] {1, 2, 3, 6, 12, 24, 60}) {
      if (months >= needed) {
        return months;
      }
    }
    return 120;
  }
}
