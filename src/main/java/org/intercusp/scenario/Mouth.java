package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.treatment.BodyShape;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.IncisorClass;
import org.intercusp.treatment.JointSign;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.Vertebrae;
import org.jspecify.annotations.Nullable;

/**
 * What is true of one invented patient before treatment. Distributions without a source beside them
 * are common practice, no source: what a clinic that treats class II division 1 sees.
 */
final class Mouth {

  /** The day all generated records speak of. */
  static final LocalDate AS_OF = LocalDate.of(2026, 10, 30);

  private static final List<GrowthStage> STAGES = List.of(GrowthStage.values());

  private final Draw draw;
  final double age;

  /** Whether a bite has been registered yet. */
  final boolean planned;

  final LocalDate assessedOn;
  final LocalDate birthDate;
  final IncisorClass incisorClass;
  final double overjet;
  final double overbite;
  final double molarRight;
  final double molarLeft;
  final double upperCrowding;
  final double lowerCrowding;
  private final int stagesPassed;
  final GrowthStage growthStage;
  final boolean crossbite;
  final List<Tooth> missing = new ArrayList<>();
  final List<Tooth> teeth;
  final List<String> allergies;

  Mouth(Draw draw) {
    this.draw = draw;
    // Mean age in trials of functional appliances is about 12.4 years (from memory of AJODO
    // 2003;124:234-243); the spread is common practice, no source.
    this.age = draw.normal(12.3, 1.3, 9.0, 16.0);
    this.planned = !draw.chance(0.02);
    // Four years and a half: long enough for some to be a year into retention.
    this.assessedOn = AS_OF.minusDays(planned ? draw.whole(40, 1600) : draw.whole(1, 20));
    this.birthDate = assessedOn.minusDays(StrictMath.round(age * 365.25));
    this.incisorClass = draw.chance(0.05) ? IncisorClass.II_2 : IncisorClass.II_1;
    boolean second = incisorClass == IncisorClass.II_2;
    this.overjet = round(second ? draw.normal(3.5, 0.7, 2.5, 5) : draw.normal(9, 2, 6, 15));
    this.overbite = round(second ? draw.normal(6, 1, 5, 9) : draw.normal(4.2, 1.9, -1, 8));
    this.molarRight = round(draw.normal(4.8, 1.8, 0.5, 8));
    this.molarLeft = round(Math.max(0.5, Math.min(8, molarRight + draw.normal(0, 1, -3, 3))));
    this.upperCrowding = round(draw.normal(1.5, 2, -4, 8));
    this.lowerCrowding = round(draw.normal(1.5, 2, -4, 8));
    this.stagesPassed = stagesPassed(age + draw.normal(0, 0.9, -2, 2));
    this.growthStage = STAGES.get(stagesPassed);
    this.crossbite = draw.chance(0.1);
    this.teeth = Eruption.teeth(draw, age, missing);
    // Nickel allergy in adolescents lies near 10 %, acrylate allergy well below 1 %: common
    // practice, no source.
    this.allergies = new ArrayList<>();
    addAllergy("nickel", 0.08);
    addAllergy("acrylic", 0.006);
    addAllergy("latex", 0.01);
  }

  private void addAllergy(String name, double probability) {
    if (draw.chance(probability)) {
      allergies.add(name);
    }
  }

  private static double round(double millimetres) {
    return StrictMath.round(millimetres * 2) / 2.0;
  }

  private static int stagesPassed(double maturity) {
    // Ages at which a boy or girl of average pace passes from stage to stage: common practice, no
    // source; the stages themselves are those of Semin Orthod 2005;11:119-129.
    double[] passes = {10.3, 11.3, 12.4, 13.6, 15.0};
    int at = 0;
    while (at < passes.length && maturity > passes[at]) {
      at++;
    }
    return at;
  }

  Diagnosis diagnosis() {
    return new Diagnosis(
        assessedOn,
        incisorClass,
        new BothSides(Draw.half(molarRight), Draw.half(molarLeft)),
        Draw.half(overjet),
        Draw.half(overbite),
        draw.chance(0.6) ? cover() : null,
        draw.chance(0.8)
            ? new BothArches(Draw.half(upperCrowding), Draw.half(lowerCrowding))
            : null,
        draw.chance(0.9) ? lips() : null,
        draw.chance(0.7) ? growthStage : null,
        draw.chance(0.9) ? jointSigns() : null,
        draw.chance(0.9) ? hygiene() : null,
        draw.chance(0.9) ? draw.chance(0.02) : null,
        teeth);
  }

  private Share cover() {
    return new Share(Draw.decimal(Math.max(0, Math.min(1, overbite / 8)), 2));
  }

  Lips lips() {
    return overjet > 7 ? Lips.INCOMPETENT : Lips.COMPETENT;
  }

  private List<JointSign> jointSigns() {
    return draw.chance(0.06)
        ? List.of(JointSign.CLICK)
        : draw.chance(0.01) ? List.of(JointSign.CREPITUS) : List.of();
  }

  Hygiene hygiene() {
    return draw.chance(0.6) ? Hygiene.GOOD : draw.chance(0.85) ? Hygiene.FAIR : Hygiene.POOR;
  }

  /** Vertebrae that show the growth stage. */
  Vertebrae vertebrae() {
    BodyShape c3 =
        switch (growthStage) {
          case CS1, CS2 -> BodyShape.TRAPEZOID;
          case CS3, CS4 -> BodyShape.HORIZONTAL;
          case CS5 -> BodyShape.SQUARE;
          case CS6 -> BodyShape.VERTICAL;
        };
    BodyShape c4 = growthStage == GrowthStage.CS3 ? BodyShape.TRAPEZOID : c3;
    return new Vertebrae(stagesPassed >= 1, stagesPassed >= 2, stagesPassed >= 3, c3, c4);
  }

  boolean has(@Nullable Tooth tooth) {
    return tooth != null && teeth.contains(tooth);
  }

  /** The first of these that is there. */
  @Nullable Tooth first(String... codes) {
    for (String code : codes) {
      if (has(new Tooth(code))) {
        return new Tooth(code);
      }
    }
    return null;
  }

  /** Distance between the first molars' mesial contacts round the arch, from the tooth widths. */
  static Length available(double widths, double crowding) {
    return Draw.tenth(Math.max(40, Math.min(100, widths - crowding)));
  }
}
