package org.intercusp.summary.content;

import java.util.List;
import java.util.stream.Stream;
import org.intercusp.summary.wording.Plain;

/** One piece of a panel. Text is cleaned as it comes in; markup is escaped as it goes out. */
public sealed interface Part {

  /** Its name in the templates. */
  String kind();

  /** All that is read in it; of a drawing nothing, whose words are ours. */
  List<String> texts();

  /** Labels with their values. */
  record Fields(List<Field> fields) implements Part {
    public Fields {
      fields = List.copyOf(fields);
    }

    @Override
    public String kind() {
      return "fields";
    }

    @Override
    public List<String> texts() {
      return fields.stream().flatMap(each -> Stream.of(each.label(), each.value())).toList();
    }
  }

  /** A label and a value. */
  record Field(String label, String value) {
    public Field {
      label = Plain.text(label);
      value = Plain.text(value);
    }
  }

  /** A table; the first cell of a row names it. An empty cell is filled in by hand. */
  record Grid(List<String> head, List<List<String>> rows) implements Part {
    public Grid {
      head = cleaned(head);
      rows = rows.stream().map(Part::cleaned).toList();
    }

    @Override
    public String kind() {
      return "grid";
    }

    @Override
    public List<String> texts() {
      return Stream.concat(head.stream(), rows.stream().flatMap(List::stream)).toList();
    }
  }

  /** Paragraphs. */
  record Words(List<String> paragraphs) implements Part {
    public Words {
      paragraphs = cleaned(paragraphs);
    }

    @Override
    public String kind() {
      return "words";
    }

    @Override
    public List<String> texts() {
      return paragraphs;
    }
  }

  /** A list. */
  record Points(List<String> items) implements Part {
    public Points {
      items = cleaned(items);
    }

    @Override
    public String kind() {
      return "points";
    }

    @Override
    public List<String> texts() {
      return items;
    }
  }

  /** What must be seen first. */
  record Alarm(List<String> items) implements Part {
    public Alarm {
      items = cleaned(items);
    }

    @Override
    public String kind() {
      return "alarm";
    }

    @Override
    public List<String> texts() {
      return items;
    }
  }

  /** A drawing of {@code summary.drawing}, an SVG element that describes itself. */
  record Picture(String svg) implements Part {

    @Override
    public String kind() {
      return "picture";
    }

    @Override
    public List<String> texts() {
      return List.of();
    }

    /** Its description, escaped as it stands in the drawing. */
    public String description() {
      int start = svg.indexOf('>', svg.indexOf("<desc")) + 1;
      return svg.substring(start, svg.indexOf("</desc>"));
    }
  }

  private static List<String> cleaned(List<String> texts) {
    return texts.stream().map(Plain::text).toList();
  }
}
