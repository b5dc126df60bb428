package org.intercusp.treatment.shape;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Source;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JsonGenerator;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A number in a range, both ends allowed. A whole number may be written {@code 10.0}, as JSON
 * Schema has it; it is written back as {@code 10}.
 *
 * @param <T> what it becomes
 */
public final class Numbers<T> implements Shape<T> {

  /** How the description of a number in a schema begins; its UCUM unit follows. */
  private static final String UNIT = "unit ";

  private final BigDecimal least;
  private final BigDecimal most;
  private final boolean whole;
  private final @Nullable Unit unit;
  private final Fault.Code code;
  private final Source source;
  private final Function<BigDecimal, T> read;
  private final Function<T, BigDecimal> write;

  private Numbers(
      BigDecimal least,
      BigDecimal most,
      boolean whole,
      @Nullable Unit unit,
      Fault.Code code,
      Source source,
      Function<BigDecimal, T> read,
      Function<T, BigDecimal> write) {
    this.least = least;
    this.most = most;
    this.whole = whole;
    this.unit = unit;
    this.code = code;
    this.source = source;
    this.read = read;
    this.write = write;
  }

  /** A decimal with a unit, between two numbers written plainly. */
  public static <T> Numbers<T> between(
      String least,
      String most,
      @Nullable Unit unit,
      Function<BigDecimal, T> read,
      Function<T, BigDecimal> write) {
    return new Numbers<>(
        new BigDecimal(least),
        new BigDecimal(most),
        /* whole= */ false,
        unit,
        Fault.Code.OUT_OF_RANGE,
        Source.COMMON_PRACTICE,
        read,
        write);
  }

  /** A decimal without a unit. */
  public static Numbers<Decimal> decimal(String least, String most) {
    return between(least, most, null, Decimal::new, Decimal::value);
  }

  /** A whole number. */
  public static Numbers<Integer> whole(int least, int most) {
    return whole(least, most, Fault.Code.OUT_OF_RANGE, Source.COMMON_PRACTICE);
  }

  /** A whole number of points on a published index. */
  public static Numbers<Integer> score(int least, int most, Source source) {
    return whole(least, most, Fault.Code.SCORE_RANGE, source);
  }

  private static Numbers<Integer> whole(int least, int most, Fault.Code code, Source source) {
    return new Numbers<>(
        BigDecimal.valueOf(least),
        BigDecimal.valueOf(most),
        /* whole= */ true,
        null,
        code,
        source,
        BigDecimal::intValueExact,
        BigDecimal::valueOf);
  }

  private String expected() {
    return (whole ? "a whole number from " : "a number from ")
        + least.toPlainString()
        + " to "
        + (unit == null ? most.toPlainString() : unit.behind(most.toPlainString()));
  }

  @Override
  public @Nullable T read(Node node, Pointer at, Reading reading) {
    if (!(node instanceof Node.Num number)) {
      reading.wrongType(at, node, expected());
      return null;
    }
    BigDecimal value = number.value();
    if (whole && value != null && value.stripTrailingZeros().scale() > 0) {
      reading.wrongType(at, node, expected());
      return null;
    }
    if (value == null || value.compareTo(least) < 0 || value.compareTo(most) > 0) {
      reading.add(new Fault(code, at, Reading.shown(node), expected(), unit, source));
      return null;
    }
    return read.apply(value);
  }

  @Override
  public void write(T value, JsonGenerator out) {
    out.writeNumber(write.apply(value).toPlainString());
  }

  @Override
  public ObjectNode schema(SchemaPage page) {
    ObjectNode schema = SchemaPage.object().put("type", whole ? "integer" : "number");
    schema.put("minimum", least);
    schema.put("maximum", most);
    if (unit != null) {
      schema.put("description", UNIT + unit.ucum());
    }
    return schema;
  }

  /** The unit that the schema of a number says; empty where it is a bare number. */
  public static Optional<Unit> unit(JsonNode schema) {
    String said = schema.path("description").asString("");
    return Arrays.stream(Unit.values()).filter(one -> said.equals(UNIT + one.ucum())).findFirst();
  }
}
