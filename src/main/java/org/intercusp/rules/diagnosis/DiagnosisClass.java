package org.intercusp.rules.diagnosis;

import java.math.BigDecimal;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.IncisorClass;
import org.jspecify.annotations.Nullable;

/** The incisor class agrees with the overjet and the molars. */
final class DiagnosisClass implements Rule {

  static final String CODE = "diagnosis-class";
  private static final Length CLASS_ONE_MOST = Length.of("5");
  private static final Length CLASS_TWO_ABOVE = Length.of("2");
  private static final Length CLASS_THREE_MOST = Length.of("3");

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR, Severity.WARNING)
        .compares("the incisor class with the overjet, and II/1 with the molar relations")
        .limit(
            "class I with an overjet of 0 to 5 mm, II/1 above 2 mm, III at most 3 mm; II/1 with a"
                + " molar relation above 0 mm on at least one side (else a warning)")
        .about("/diagnosis/*", "Bundle.entry.resource.ofType(Condition)")
        .remedy("Measure the overjet again, or correct the class.")
        .samples(
            Sample.failing(
                "/diagnosis/incisorClass",
                """
                {"/diagnosis/overjet": 2, "/bites/0/overjetHabitual": 2}"""),
            Sample.passing("{\"/diagnosis/overjet\": 2.5}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Diagnosis diagnosis = about.treatment().diagnosis();
    Bound crossed = crossed(diagnosis.incisorClass(), diagnosis.overjet());
    if (crossed != null) {
      found
          .error(Pointer.of("diagnosis", "incisorClass"), about.treatment().id())
          .value("overjet", diagnosis.overjet())
          .limit(crossed.allowed())
          .keeping("incisorClass", number(diagnosis.incisorClass()))
          .borderlineWithin(diagnosis.overjet().minus(crossed.at()).asDouble(), about.u())
          .says(
              "Class %s does not go with an overjet of %s."
                  .formatted(diagnosis.incisorClass().code(), Shown.of(diagnosis.overjet())));
    }
    molars(about, diagnosis, found);
  }

  private static void molars(Case about, Diagnosis diagnosis, Findings found) {
    BothSides molars = diagnosis.molarRelation();
    Length nearest = molars.right().isAbove(molars.left()) ? molars.right() : molars.left();
    if (diagnosis.incisorClass() == IncisorClass.II_1 && !nearest.isAbove(Length.ZERO)) {
      found
          .warning(Pointer.of("diagnosis", "molarRelation"), about.treatment().id())
          .value(Shown.of(molars.right()) + " right, " + Shown.of(molars.left()) + " left")
          .limit("above 0 mm")
          .borderlineWithin(nearest.asDouble(), about.u())
          .remedy("Look at the molar relations again, or correct the class.")
          .says("Class II/1 with neither molar relation in class II.");
    }
  }

  /** The class as an acceptance keeps it: the division behind the point. */
  private static BigDecimal number(IncisorClass incisorClass) {
    return switch (incisorClass) {
      case I -> BigDecimal.ONE;
      case II_1 -> new BigDecimal("2.1");
      case II_2 -> new BigDecimal("2.2");
      case III -> BigDecimal.valueOf(3);
    };
  }

  /**
   * A bound of the overjet.
   *
   * @param allowed what the class goes with, in words
   */
  private record Bound(String allowed, Length at) {}

  /** The bound that the overjet lies beyond; null where it goes with the class. */
  private static @Nullable Bound crossed(IncisorClass incisorClass, Length overjet) {
    return switch (incisorClass) {
      case I -> classOne(overjet);
      case II_1 -> overjet.isAbove(CLASS_TWO_ABOVE) ? null : new Bound("above 2", CLASS_TWO_ABOVE);
      case II_2 -> null;
      case III ->
          overjet.isAbove(CLASS_THREE_MOST) ? new Bound("at most 3", CLASS_THREE_MOST) : null;
    };
  }

  private static @Nullable Bound classOne(Length overjet) {
    if (overjet.isBelow(Length.ZERO)) {
      return new Bound("0-5", Length.ZERO);
    }
    return overjet.isAbove(CLASS_ONE_MOST) ? new Bound("0-5", CLASS_ONE_MOST) : null;
  }
}
