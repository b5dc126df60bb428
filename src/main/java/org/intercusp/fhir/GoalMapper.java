package org.intercusp.fhir;

import java.time.LocalDate;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Duration;
import org.hl7.fhir.r4.model.Goal;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Range;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Stage.Goal.Comparator;
import org.intercusp.treatment.Stage.Goal.Measure;

/**
 * An exit goal of a stage. R4 reads a range without low as met at or below its high, and one
 * without high as met at or above its low.
 */
final class GoalMapper {

  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);

  Reference toFhir(Stage stage, int ordinal, Writing writing) {
    Stage.Goal goal = stage.goals().get(ordinal - 1);
    Concept measure = measure(goal.measure());
    Goal resource = new Goal();
    resource.setLifecycleStatus(Over.of(stage, writing.treatment()).goal());
    resource.setDescription(new CodeableConcept().setText(words(goal, measure)));
    resource.setSubject(writing.patient());
    resource.addAddresses(writing.diagnosis());
    Goal.GoalTargetComponent target = resource.addTarget();
    target.setMeasure(measure.concept(writing.canonicals()));
    Quantity value = (Quantity) MM.out().apply(goal.target(), writing.canonicals());
    target.setDetail(
        goal.comparator() == Comparator.AT_MOST
            ? new Range().setHigh(value)
            : new Range().setLow(value));
    LocalDate start = stage.startsOn();
    if (start != null) {
      target.setDue(
          new org.hl7.fhir.r4.model.DateType(start.plusMonths(stage.months()).toString()));
    } else {
      Duration months = new Duration();
      months.setValue(stage.months()).setUnit("months").setSystem(Codes.UCUM).setCode("mo");
      target.setDue(months);
    }
    writing.add(resource, Role.GOAL, stage.id(), Integer.toString(ordinal));
    return writing.to("Goal", Role.GOAL, stage.id(), Integer.toString(ordinal));
  }

  private static String words(Stage.Goal goal, Concept measure) {
    String comparison = goal.comparator() == Comparator.AT_MOST ? " at most " : " at least ";
    return measure.display() + comparison + goal.target();
  }

  private static Concept measure(Measure measure) {
    return switch (measure) {
      case OVERJET -> Codes.OVERJET;
      case OVERBITE -> Codes.OVERBITE;
      case MOLAR_RELATION -> Codes.MOLAR_RELATION;
      case POSTERIOR_OPEN_BITE -> Codes.POSTERIOR_OPEN_BITE;
    };
  }

  void fromFhir(CarePlan stage, Draft draft, Reading reading) {
    draft.array("goals");
    for (Reference reference : stage.getGoal()) {
      Goal goal = reading.resolve(reference, Goal.class);
      if (goal != null) {
        Draft element = draft.element("goals", reading.path(goal));
        fromFhir(goal.getTargetFirstRep(), element, reading.path(goal) + ".target[0]", reading);
      }
    }
  }

  private static void fromFhir(
      Goal.GoalTargetComponent target, Draft draft, String path, Reading reading) {
    for (Measure measure : Measure.values()) {
      if (reading.is(measure(measure), target.getMeasure())) {
        draft.put("measure", measure.code(), path + ".measure");
      }
    }
    if (!(target.getDetail() instanceof Range range)) {
      return;
    }
    boolean high = range.hasHigh();
    Comparator comparator = high ? Comparator.AT_MOST : Comparator.AT_LEAST;
    String at = path + ".detail." + (high ? "high" : "low");
    draft.put("comparator", comparator.code(), at);
    Quantity value = high ? range.getHigh() : range.getLow();
    draft.put("target", reading.value(MM, value.isEmpty() ? null : value, at), at);
  }
}
