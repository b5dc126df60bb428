package org.intercusp.treatment.shape;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.node.ObjectNode;

/**
 * A string: free text, an id, a reference, a code of a list, a tooth or a date.
 *
 * @param <T> what it becomes
 */
public final class Words<T> implements Shape<T> {

  private static final Source TEETH = Source.published("ISO 3950:2016");
  private static final Source DATES = Source.published("ISO 8601-1:2019");

  private static final String CONTROL = "\\u0000-\\u001f\\u007f-\\u009f";
  // An id becomes the end of a path, and "." and ".." there mean other places (RFC 3986, 5.2.4).
  private static final String ID = "^(?!\\.{1,2}$)[A-Za-z0-9._-]{1,64}$";

  /** All dates of the Gregorian calendar from 1900 to 2199, and nothing else. */
  private static final String DATE =
      "^((19|2[01])[0-9]{2}-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])"
          + "|(0[469]|11)-(0[1-9]|[12][0-9]|30)"
          + "|02-(0[1-9]|1[0-9]|2[0-8]))"
          + "|((19|2[01])(0[48]|[2468][048]|[13579][26])|2000)-02-29)$";

  private final Limit limit;
  private final Fault.Code code;
  private final String expected;
  private final @Nullable Source source;
  private final @Nullable String declares;
  private final @Nullable String refers;
  private final Function<String, T> read;
  private final Function<T, String> write;

  private Words(
      Limit limit,
      Fault.Code code,
      String expected,
      @Nullable Source source,
      @Nullable String declares,
      @Nullable String refers,
      Function<String, T> read,
      Function<T, String> write) {
    this.limit = limit;
    this.code = code;
    this.expected = expected;
    this.source = source;
    this.declares = declares;
    this.refers = refers;
    this.read = read;
    this.write = write;
  }

  private static Words<String> plain(Limit limit, String expected) {
    return plain(limit, expected, null, null);
  }

  private static Words<String> plain(
      Limit limit, String expected, @Nullable String declares, @Nullable String refers) {
    return new Words<>(
        limit,
        Fault.Code.OUT_OF_RANGE,
        expected,
        null,
        declares,
        refers,
        UnaryOperator.identity(),
        UnaryOperator.identity());
  }

  private static Limit pattern(@Nullable String name, String pattern, int least, int most) {
    return new Limit(List.of(), Pattern.compile(pattern), least, most, null, name, null);
  }

  private static Limit pattern(String name, String pattern, int most, Predicate<String> same) {
    return new Limit(List.of(), Pattern.compile(pattern), 1, most, null, name, same);
  }

  private static Words<String> name(
      String expected, @Nullable String declares, @Nullable String refers) {
    return plain(pattern("id", ID, 64, Letters::isId), expected, declares, refers);
  }

  /** One line of text that neither starts nor ends with a space. */
  public static Words<String> text(int most) {
    String edge = "[^ " + CONTROL + "]";
    return plain(
        pattern(
            "text" + most,
            "^" + edge + "([^" + CONTROL + "]*" + edge + ")?$",
            most,
            Letters::isLine),
        "a text of 1 to " + most + " characters, without control characters or spaces at its ends");
  }

  /** Text of several lines. */
  public static Words<String> lines(int most) {
    String control = "\\u0000-\\u0008\\u000b-\\u001f\\u007f-\\u009f";
    return plain(
        pattern(
            null,
            "^[^" + control + "]*[^ \\u0009\\u000a" + control + "][^" + control + "]*$",
            1,
            most),
        "a text of 1 to " + most + " characters, without control characters");
  }

  /** An absolute URI, such as a naming system. */
  public static Words<String> uri() {
    return plain(
        pattern(
            "uri",
            "^[A-Za-z][A-Za-z0-9+.-]*:[^ <>\"{}|\\\\^`" + CONTROL + "]+$",
            500,
            Letters::isUri),
        "an absolute URI of at most 500 characters");
  }

  private static final String ID_WORDS =
      "1 to 64 letters, digits, dots, hyphens or low lines, other than . and ..";

  /** Whether a text that stands elsewhere than in a file may be an id. */
  public static boolean isId(String text) {
    return Words.id().limit.allows(text);
  }

  /** An id that nothing in the file refers to. */
  public static Words<String> id() {
    return name(ID_WORDS, null, null);
  }

  /** The id of an entry of a list at the top of the file, unique in it. */
  public static Words<String> idIn(String list) {
    return name(ID_WORDS, list, null);
  }

  /** The id of an entry of a list at the top of the file. */
  public static Words<String> referenceTo(String list) {
    return name("the id of one of " + list, null, list);
  }

  /** Always this text. */
  public static Words<String> exactly(String text) {
    return plain(new Limit(List.of(text)), "\"" + text + "\"");
  }

  /** A code of a closed list. */
  public static <E> Words<E> oneOf(E[] values, Function<E, String> code) {
    Map<String, E> byCode = new LinkedHashMap<>();
    for (E value : values) {
      byCode.put(code.apply(value), value);
    }
    List<String> codes = List.copyOf(byCode.keySet());
    return new Words<>(
        new Limit(codes),
        Fault.Code.OUT_OF_RANGE,
        "one of " + String.join(", ", codes),
        null,
        null,
        null,
        text -> Objects.requireNonNull(byCode.get(text)),
        code);
  }

  /** A grade of a published index. */
  public static Words<String> grade(List<String> grades, Source source) {
    return new Words<>(
        new Limit(grades),
        Fault.Code.SCORE_RANGE,
        "one of " + String.join(", ", grades),
        source,
        null,
        null,
        UnaryOperator.identity(),
        UnaryOperator.identity());
  }

  /** A tooth. */
  public static Words<Tooth> tooth() {
    return new Words<>(
        pattern("tooth", "^([1-4][1-8]|[5-8][1-5])$", 2, 2),
        Fault.Code.TOOTH_CODE,
        "a two-digit tooth code: 11-18 to 41-48, or 51-55 to 81-85",
        TEETH,
        null,
        null,
        Tooth::new,
        Tooth::code);
  }

  /** A calendar date from 1900 to 2199. */
  public static Words<LocalDate> date() {
    return new Words<>(
        new Limit(List.of(), Pattern.compile(DATE), 10, 10, "date", "date", Letters::isDate),
        Fault.Code.NOT_A_DATE,
        "a date that exists, from 1900-01-01 to 2199-12-31, written YYYY-MM-DD",
        DATES,
        null,
        null,
        Letters::date,
        LocalDate::toString);
  }

  @Override
  public @Nullable T read(Node node, Pointer at, Reading reading) {
    if (!(node instanceof Node.Str text)) {
      reading.wrongType(at, node, expected);
      return null;
    }
    return read(text.text(), at, reading, code);
  }

  /** Reads a member name as one of these words, under the code of the place. */
  @Nullable T readName(String name, Pointer at, Reading reading) {
    Fault.Code inName =
        code == Fault.Code.OUT_OF_RANGE && !limit.codes().isEmpty()
            ? Fault.Code.UNKNOWN_MEMBER
            : code;
    return read(name, at, reading, inName);
  }

  private @Nullable T read(String text, Pointer at, Reading reading, Fault.Code wrong) {
    if (!limit.allows(text)) {
      Node found = new Node.Str(text);
      if (source == null) {
        reading.add(wrong, at, found, expected);
      } else {
        reading.add(new Fault(wrong, at, Reading.shown(found), expected, null, source));
      }
      return null;
    }
    if (declares != null) {
      reading.declare(declares, text, at);
    }
    if (refers != null) {
      reading.refer(refers, text, at);
    }
    return read.apply(text);
  }

  String asName(T value) {
    return write.apply(value);
  }

  @Override
  public void write(T value, JsonGenerator out) {
    out.writeString(write.apply(value));
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    return limit.name() == null ? limit.schema() : page.reference(limit.name(), limit::schema);
  }
}
