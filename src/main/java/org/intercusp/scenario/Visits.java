package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Breakage;
import org.intercusp.treatment.JointSign;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Review.Reactivation;
import org.intercusp.treatment.Review.WearMeasured;
import org.intercusp.treatment.ReviewKind;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Tenderness;
import org.intercusp.treatment.Trim;
import org.jspecify.annotations.Nullable;

/** The review visits of one invented treatment. Shares are common practice, no source. */
final class Visits {

  private final Draw draw;
  private final Mouth mouth;
  private final Plan plan;
  private final Path path;
  private final String seenBy;
  private final LocalDate until;
  private final List<Review> reviews = new ArrayList<>();
  private final List<Bite> bites = new ArrayList<>();
  private final List<Appliance> remade = new ArrayList<>();
  private double blockLeft;
  private int turnsLeft;

  Visits(Draw draw, Mouth mouth, Plan plan, Path path, String seenBy, LocalDate until) {
    this.draw = draw;
    this.mouth = mouth;
    this.plan = plan;
    this.path = path;
    this.seenBy = seenBy;
    this.until = until;
    Length molar = plan.first.molarClearance();
    this.blockLeft = molar == null ? 4 : molar.asDouble();
    Appliance.Screw screw = plan.appliance.screw();
    this.turnsLeft = screw == null ? 0 : screw.plannedTurns();
  }

  List<Review> reviews() {
    return reviews;
  }

  List<Bite> bites() {
    return bites;
  }

  List<Appliance> remade() {
    return remade;
  }

  /** The visits of a stage: the first after so many days, then as planned, the last on its end. */
  void during(Stage stage, LocalDate start, LocalDate end, int firstDays) {
    LocalDate on = start.plusDays(firstDays + draw.whole(-2, 2));
    int number = 1;
    while (on.isBefore(end) && !on.isAfter(until)) {
      LocalDate next = on.plusWeeks(stage.reviewWeeks()).plusDays(draw.whole(-4, 10));
      boolean last = next.isAfter(end.minusDays(14));
      LocalDate planned = last ? end : next;
      reviews.add(visit(stage, on, number, planned));
      on = planned;
      number++;
    }
    if (!end.isAfter(until)) {
      reviews.add(visit(stage, end, number, end.plusWeeks(6)));
    }
  }

  private Review visit(Stage stage, LocalDate on, int number, LocalDate next) {
    boolean active = stage.kind() == StageKind.ACTIVE;
    List<Breakage> breakages = active ? breakages(on) : List.of();
    double overjet = read(path.overjet(on));
    return new Review(
        "rev-" + (reviews.size() + 1),
        on,
        stage.id(),
        seenBy,
        !breakages.isEmpty() && draw.chance(0.3) ? ReviewKind.URGENT : ReviewKind.PLANNED,
        Draw.half(overjet),
        draw.chance(0.7) ? Draw.half(overjet + draw.pick(List.of(0.0, 0.0, 0.5, 1.0))) : null,
        Draw.half(read(path.overbite(on))),
        path.molars(on),
        draw.chance(0.85) ? openBite(on) : null,
        active && draw.chance(0.9) ? wearReported() : null,
        active && draw.chance(0.15) ? wearMeasured(on) : null,
        active && draw.chance(number < 4 ? 0.9 : 0.2) ? tenderness(number) : null,
        draw.chance(0.85) ? jointSigns() : null,
        draw.chance(0.5) ? Draw.half(draw.normal(46, 4, 33, 60)) : null,
        breakages,
        active ? trimming(number) : List.of(),
        active ? reactivation(on, number, overjet) : null,
        active && turnsLeft > 0 ? turns() : null,
        draw.chance(0.8) ? mouth.hygiene() : null,
        new Harm(draw).at(on, number, active),
        draw.chance(0.9) ? next : null,
        draw.chance(0.15) ? draw.pick(NOTES) : null);
  }

  private static final List<String> NOTES =
      List.of(
          "Speech settled.",
          "Leaves it out at school meals.\nTalked about it with the family.",
          "Lower plate loose, clasps tightened.",
          "Pleased with the profile.",
          "Forgot the wear chart.");

  private double read(double overjet) {
    return overjet + draw.normal(0, 0.25, -0.5, 0.5);
  }

  private BothSides openBite(LocalDate on) {
    Length both = Draw.half(path.posteriorOpenBite(on));
    return new BothSides(both, both);
  }

  /** People tell of about three hours more than a sensor counts. */
  private HoursPerDay wearReported() {
    double told = path.wear + draw.normal(3, 2, -1, 8);
    return new HoursPerDay(Draw.decimal(Math.max(0, Math.min(24, told)), 0));
  }

  private WearMeasured wearMeasured(LocalDate on) {
    double measured = Math.max(0, path.wear + draw.normal(0, 1.2, -3, 3));
    return new WearMeasured(
        new HoursPerDay(Draw.decimal(Math.min(24, measured), 1)), on.minusDays(12), on);
  }

  private Tenderness tenderness(int number) {
    boolean present = path.wear > 8 && draw.chance(number < 3 ? 0.9 : 0.5);
    return present ? Tenderness.PRESENT : Tenderness.ABSENT;
  }

  private List<JointSign> jointSigns() {
    return draw.chance(0.03)
        ? List.of(JointSign.CLICK)
        : draw.chance(0.006) ? List.of(JointSign.PAIN) : List.of();
  }

  private List<Breakage> breakages(LocalDate on) {
    if (!draw.chance(0.06)) {
      return List.of();
    }
    Breakage.Part part =
        draw.pick(
            List.of(
                Breakage.Part.CLASP,
                Breakage.Part.CLASP,
                Breakage.Part.BASEPLATE,
                Breakage.Part.BLOCK));
    boolean again = remade.isEmpty() && draw.chance(0.12);
    String broken = remade.isEmpty() ? plan.appliance.id() : remade.get(0).id();
    if (again) {
      remade.add(remadeOn(on));
    }
    Breakage.Action action =
        again
            ? Breakage.Action.REMADE
            : part == Breakage.Part.CLASP ? Breakage.Action.ADJUSTED : Breakage.Action.REPAIRED;
    return List.of(new Breakage(broken, part, action));
  }

  /** The same appliance made once more to a new bite. */
  private Appliance remadeOn(LocalDate on) {
    Bite bite = newBite(on, Math.max(0, path.overjet(on)));
    return plan.twinBlock("app-remade", bite, plan.appliance.id());
  }

  private Bite newBite(LocalDate on, double forward) {
    double most = Math.min(forward, 0.7 * plan.path - plan.slide);
    Bite bite =
        plan.bite(
            "bite-" + (bites.size() + 2),
            on,
            path.overjet(on),
            path.overbite(on),
            0,
            StrictMath.floor(2 * most) / 2);
    bites.add(bite);
    return bite;
  }

  private List<Trim> trimming(int number) {
    double amount = number < 2 || mouth.overbite < 4 ? 0 : number == 2 ? 1.5 : 0.5;
    if (amount == 0 || blockLeft < amount) {
      return List.of();
    }
    blockLeft -= amount;
    List<Trim> trims = new ArrayList<>();
    for (Side side : Side.values()) {
      trims.add(
          new Trim(
              Arch.UPPER,
              side,
              mouth.first(side == Side.RIGHT ? "16" : "26"),
              Trim.Face.OCCLUSODISTAL,
              Draw.half(amount)));
    }
    return trims;
  }

  private @Nullable Reactivation reactivation(LocalDate on, int number, double overjet) {
    boolean due = plan.staged && number == 3 && overjet > 2.5;
    if (!due) {
      return null;
    }
    double amount = Math.min(4, StrictMath.floor(2 * overjet) / 2);
    return new Reactivation(Draw.half(amount), draw.chance(0.7) ? newBite(on, amount).id() : null);
  }

  private int turns() {
    int turns = Math.min(turnsLeft, draw.whole(3, 7));
    turnsLeft -= turns;
    return turns;
  }
}
