package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;

/** Whether the overjet is being brought back: nothing is expected of it in later stages. */
public final class ActivePhase {

  private ActivePhase() {}

  /** The active stage under way on a day; lacking once it is over or treatment has ended. */
  public static Reckoned<Stage> on(Treatment treatment, LocalDate day) {
    if (treatment.hasEnded()) {
      return Reckoned.lacking("treatment has ended");
    }
    if (treatment.stages().stream().noneMatch(stage -> stage.kind() == StageKind.ACTIVE)) {
      return Reckoned.lacking("no active stage");
    }
    Optional<Stage> stage =
        CurrentStage.on(treatment, day).or(() -> notBegun(treatment, day)).filter(ActivePhase::is);
    return stage
        .<Reckoned<Stage>>map(Reckoned::known)
        .orElseGet(() -> Reckoned.lacking("the active stage is over"));
  }

  /** An appliance may be fitted some days before the plan begins. */
  private static Optional<Stage> notBegun(Treatment treatment, LocalDate day) {
    List<Reckoned<StageDates>> dates = StageDates.of(treatment);
    boolean begun = dates.get(0).result().filter(first -> !day.isBefore(first.start())).isPresent();
    return begun ? Optional.empty() : Optional.of(treatment.stages().get(0));
  }

  /** Whether a stage is an active one. */
  public static boolean is(Stage stage) {
    return stage.kind() == StageKind.ACTIVE;
  }
}
