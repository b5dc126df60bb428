package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.intercusp.measure.Quantity;
import org.intercusp.summary.content.Part.Field;
import org.intercusp.summary.wording.Codes;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.Organisation;
import org.intercusp.treatment.Person;
import org.jspecify.annotations.Nullable;

/** Collects fields; what was not recorded says so and is never made up. */
final class Lines {

  static final String NOT_RECORDED = "not recorded";

  private final List<Field> fields = new ArrayList<>();

  Lines add(String label, @Nullable String value) {
    fields.add(new Field(label, value == null || value.isBlank() ? NOT_RECORDED : value));
    return this;
  }

  Lines add(String label, @Nullable Quantity value) {
    return add(label, value == null ? null : Numbers.of(value));
  }

  Lines add(String label, @Nullable LocalDate value) {
    return add(label, value == null ? null : value.toString());
  }

  Lines add(String label, @Nullable Coded value) {
    return add(label, value == null ? null : Codes.words(value));
  }

  /** Only where there is something to say. */
  Lines where(String label, @Nullable String value) {
    return value == null ? this : add(label, value);
  }

  Part.Fields part() {
    return new Part.Fields(fields);
  }

  static String name(List<String> given, String family) {
    return (String.join(" ", given) + " " + family).strip();
  }

  static String name(Person person) {
    String own = name(person.given(), person.family());
    return person.organisation() == null ? own : own + ", " + person.organisation();
  }

  /**
   * An organisation and, on a line of its own, how to reach it: a number behind a name is torn
   * apart where the line ends, and turned round behind a name that is written from right to left.
   */
  Lines organisation(String label, String reach, @Nullable Organisation organisation) {
    return organisation == null
        ? add(label, (String) null)
        : add(label, organisation.name()).where(reach, organisation.contact());
  }

  /** A person; where they work has its line only where it is not the clinic named beside them. */
  Lines person(String label, Person person, Organisation beside) {
    String own = person.organisation();
    return add(label, name(person.given(), person.family()))
        .where(label + "'s practice", beside.name().equals(own) ? null : own);
  }

  /** How often a screw is turned. */
  static String every(int days) {
    return days == 1 ? "one a day" : "one every " + days + " days";
  }

  /** A list, nothing found, or not looked at. */
  static String list(@Nullable List<String> items) {
    if (items == null) {
      return NOT_RECORDED;
    }
    return items.isEmpty() ? "none" : String.join(", ", items);
  }

  static @Nullable List<String> codes(@Nullable List<? extends Coded> codes) {
    return codes == null ? null : codes.stream().map(Codes::words).collect(Collectors.toList());
  }

  static String yesNo(@Nullable Boolean flag) {
    return flag == null ? NOT_RECORDED : flag ? "yes" : "no";
  }
}
