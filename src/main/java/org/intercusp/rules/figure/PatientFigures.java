package org.intercusp.rules.figure;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.analysis.FigureSheet;
import org.intercusp.analysis.FigureSheet.Context;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.treatment.Treatment;

/** The patient's age. */
final class PatientFigures {

  private PatientFigures() {}

  static List<Figure> of(Case about) {
    Treatment treatment = about.treatment();
    long months = ChronoUnit.MONTHS.between(treatment.patient().birthDate(), about.day());
    Reckoned<BigDecimal> age =
        months < 0
            ? Reckoned.lacking("the birth date lies after the day it is")
            : Reckoned.known(
                BigDecimal.valueOf(months).divide(BigDecimal.valueOf(12), 1, RoundingMode.DOWN));
    return new FigureSheet(treatment.id())
        .number("age", age, 1, Unit.YEAR, Context.of(Source.COMMON_PRACTICE).noting("calendar"))
        .figures();
  }
}
