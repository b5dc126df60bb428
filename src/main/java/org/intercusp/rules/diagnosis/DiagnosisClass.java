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
    String allowed = against(diagnosis);
    if (!allowed.isEmpty()) {
      found
          .error(Pointer.of("diagnosis", "incisorClass"), about.treatment().id())
          .value("overjet", diagnosis.overjet())
          .limit(allowed)
          .keeping("incisorClass", number(diagnosis.incisorClass()))
          .says(
              "Class %s does not go with an overjet of %s."
                  .formatted(diagnosis.incisorClass().code(), Shown.of(diagnosis.overjet())));
    }
    BothSides molars = diagnosis.molarRelation();
    if (diagnosis.incisorClass() == IncisorClass.II_1
        && !molars.right().isAbove(Length.ZERO)
        && !molars.left().isAbove(Length.ZERO)) {
      found
          .warning(Pointer.of("diagnosis", "molarRelation"), about.treatment().id())
          .value(Shown.of(molars.right()) + " right, " + Shown.of(molars.left()) + " left")
          .limit("above 0 mm")
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

  private static String against(Diagnosis diagnosis) {
    Length overjet = diagnosis.overjet();
    return switch (diagnosis.incisorClass()) {
      case I -> overjet.isAbove(CLASS_ONE_MOST) || overjet.isBelow(Length.ZERO) ? "0-5" : "";
      case II_1 -> overjet.isAbove(CLASS_TWO_ABOVE) ? "" : "above 2";
      case II_2 -> "";
      case III -> overjet.isAbove(CLASS_THREE_MOST) ? "at most 3" : "";
    };
  }
}
