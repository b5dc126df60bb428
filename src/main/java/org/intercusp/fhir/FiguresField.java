package org.intercusp.fhir;

import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;

/**
 * Components of the figures that are computed from an element, as a person is shown them: whoever
 * has no use for landmarks has one for the angles between them. The file computes them anew when it
 * is read; what lacks a reading is absent.
 */
final class FiguresField<T> extends Field<T> {

  private final Map<String, Concept> codes;
  private final Panel.Getter<T, List<Figure>> getter;

  FiguresField(Map<String, Concept> codes, Panel.Getter<T, List<Figure>> getter) {
    this.codes = codes;
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    List<Figure> figures = getter.of(element);
    if (figures != null) {
      figures.forEach(figure -> write(figure, to, canonicals));
    }
    return false;
  }

  private void write(Figure figure, Observation to, Canonicals canonicals) {
    Concept code = codes.get(figure.name());
    Unit unit = figure.unit();
    if (code != null && unit != null && figure.value() instanceof Value.Numeric known) {
      Decimal number = new Decimal(known.number());
      component(to, code, canonicals).setValue(Kind.decimal(unit).out().apply(number, canonicals));
    }
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    // Computed anew.
  }
}
