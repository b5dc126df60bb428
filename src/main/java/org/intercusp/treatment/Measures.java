package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.function.Function;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Angle;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Flag;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/**
 * What the members of the treatment file are made of. Ranges keep slips of the pen out and are no
 * clinical limits: common practice, no source.
 */
public final class Measures {

  /** A distance in the mouth that may be on either side of zero. */
  public static final Shape<Length> MOUTH = length("-20", "20");

  /** A height, an amount, a gap: never below zero. */
  static final Shape<Length> AMOUNT = length("0", "20");

  /** A clinical crown from gingival margin to edge. */
  static final Shape<Length> CROWN = length("3", "20");

  static final Shape<Length> OPENING = length("5", "80");
  static final Shape<Length> TOOTH_WIDTH = length("3", "14");
  static final Shape<Length> ARCH_LENGTH = length("20", "120");
  static final Shape<Length> ARCH_WIDTH = length("20", "80");
  static final Shape<Length> WIRE = length("0.1", "3");

  /** What a quarter turn of an expansion screw opens. */
  static final Shape<Length> SCREW_TURN = length("0.01", "2");

  static final Shape<Angle> ANGLE =
      Numbers.between("0", "180", Unit.DEGREE, Angle::new, Angle::value);
  public static final Shape<HoursPerDay> WEAR =
      Numbers.between("0", "24", Unit.HOURS_PER_DAY, HoursPerDay::new, HoursPerDay::value);
  static final Shape<Share> SHARE = share("1");

  static final Shape<Boolean> FLAG = new Flag();
  public static final Shape<LocalDate> DATE = Words.date();
  static final Words<Tooth> TOOTH = Words.tooth();
  static final Shape<String> TEXT = Words.text(500);

  /** All teeth of both dentitions and room for slips. */
  static final Items<Tooth> TEETH = Items.upTo(64, TOOTH);

  static final Shape<Arch> ARCH = Words.oneOf(Arch.values(), Arch::code);
  static final Shape<Side> SIDE = Words.oneOf(Side.values(), Side::code);

  private Measures() {}

  static Shape<Length> length(String least, String most) {
    return Numbers.between(least, most, Unit.MILLIMETRE, Length::new, Length::value);
  }

  static Shape<Share> share(String most) {
    return Numbers.between("0", most, Unit.SHARE, Share::new, Share::value);
  }

  /** A code of a closed list. */
  public static <E extends Coded> Words<E> code(E[] values) {
    Function<E, String> code = Coded::code;
    return Words.oneOf(values, code);
  }

  static Shape<BothSides> sides(Shape<Length> each) {
    return Fields.of(BothSides.class).required("right", each).required("left", each).build();
  }

  static Shape<BothArches> arches(Shape<Length> each) {
    return Fields.of(BothArches.class).required("upper", each).required("lower", each).build();
  }
}
