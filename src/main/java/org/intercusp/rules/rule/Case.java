package org.intercusp.rules.rule;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * What a rule looks at.
 *
 * @param treatment the record
 * @param day the day it is; ages and intervals are counted at it
 * @param limits the clinic's
 * @param error of the readings
 * @param to the scope of the recipient, when the treatment is about to be delivered to one
 */
public record Case(
    Treatment treatment,
    LocalDate day,
    Limits limits,
    ReadingError error,
    @Nullable ConsentScope to) {

  public static Case of(Treatment treatment, LocalDate day, Limits limits) {
    return new Case(treatment, day, limits, ReadingError.RULER, null);
  }

  /** The same on the way to a recipient. */
  public Case deliveredTo(ConsentScope scope) {
    return new Case(treatment, day, limits, error, scope);
  }

  /** Standard uncertainty of one reading, in millimetres. */
  public double u() {
    return error.standardUncertainty();
  }

  /** Whether the patient counts as adult on the day. */
  public boolean adult() {
    return treatment.patient().age(day) >= limits.of(Limit.ADULT_FROM).intValue();
  }

  /** What is assumed of the patient's jaw: a child's or an adult's, as the clinic has set them. */
  public JawShape jaw() {
    return adult()
        ? jaw(
            Limit.JAW_ADULT_SIDE,
            Limit.JAW_ADULT_PATH,
            Limit.JAW_ADULT_FIRST_PREMOLAR,
            Limit.JAW_ADULT_SECOND_PREMOLAR,
            Limit.JAW_ADULT_MOLAR)
        : jaw(
            Limit.JAW_CHILD_SIDE,
            Limit.JAW_CHILD_PATH,
            Limit.JAW_CHILD_FIRST_PREMOLAR,
            Limit.JAW_CHILD_SECOND_PREMOLAR,
            Limit.JAW_CHILD_MOLAR);
  }

  private JawShape jaw(Limit side, Limit path, Limit first, Limit second, Limit molar) {
    return new JawShape(
        limits.of(side).doubleValue(),
        limits.of(Limit.JAW_BALKWILL_ANGLE).doubleValue(),
        limits.of(path).doubleValue(),
        limits.of(first).doubleValue(),
        limits.of(second).doubleValue(),
        limits.of(molar).doubleValue());
  }

  /** Whether the treatment goes on: nothing asks for more once it has ended. */
  public boolean goesOn() {
    Completion completion = treatment.completion();
    return completion == null || completion.status() == Completion.Status.IN_TREATMENT;
  }

  /** The bite an appliance is built to, where the record holds it. */
  public Optional<Bite> biteOf(Appliance appliance) {
    String id = appliance.biteId();
    return treatment.bites().stream().filter(bite -> bite.id().equals(id)).findFirst();
  }

  /** The stage with an id, where the record holds it. */
  public Optional<Stage> stage(String id) {
    return treatment.stages().stream().filter(stage -> stage.id().equals(id)).findFirst();
  }

  /** The teeth present when an appliance was prescribed. */
  public List<Tooth> teethFor(Appliance appliance) {
    List<Tooth> changed = appliance.teethPresent();
    return changed == null ? treatment.diagnosis().teethPresent() : changed;
  }

  /**
   * Whether an appliance has been remade: the patient has what replaces it, or it was never fitted.
   */
  public boolean isRemade(Appliance appliance) {
    return treatment.appliances().stream()
        .filter(each -> each.lab() != null && appliance.id().equals(each.lab().remakeOf()))
        .map(Appliance::fittedOn)
        .anyMatch(
            fitted -> appliance.fittedOn() == null || (fitted != null && !fitted.isAfter(day)));
  }

  /** The day an appliance was first fitted. */
  public Optional<LocalDate> firstFitting() {
    return treatment.appliances().stream()
        .map(Appliance::fittedOn)
        .filter(Objects::nonNull)
        .min(LocalDate::compareTo);
  }
}
