package org.intercusp.scenario;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Angle;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.Block;
import org.intercusp.treatment.Appliance.BlockHeights;
import org.intercusp.treatment.Appliance.Clasp;
import org.intercusp.treatment.Appliance.LabOrder;
import org.intercusp.treatment.Appliance.LabialBow;
import org.intercusp.treatment.Appliance.Screw;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** The construction bite and the first appliance of one invented treatment. */
final class Plan {

  private final Draw draw;
  private final Mouth mouth;
  private final People people;
  final double slide;
  final double path;
  final double habitual;
  final double advance;
  final boolean staged;
  final double restSpace;
  final Bite first;
  final Appliance appliance;

  Plan(Draw draw, Mouth mouth, People people) {
    this.draw = draw;
    this.mouth = mouth;
    this.people = people;
    // A child's path of protrusion is about 12 mm: common practice, no source.
    this.path = half(draw.normal(12.5, 1.6, 9, 17));
    this.slide = draw.chance(0.6) ? 0 : draw.pick(List.of(0.5, 1.0, 1.5));
    this.habitual = draw.pick(List.of(0.0, 0.0, 0.0, 2.0, -5.0));
    double allowed = 0.7 * path - slide;
    double need = mouth.overjet - (draw.chance(0.7) ? 0 : 1);
    boolean unsafe = draw.chance(0.05);
    // At most 70 % of the path and 8 mm in a first step of several: clinical.md, activation plan.
    this.staged = !unsafe && (need > allowed || mouth.overjet > 10);
    double wanted = staged ? Math.min(need, Math.min(8, allowed)) : need;
    double most = path - slide - 0.5;
    this.advance = StrictMath.floor(2 * Math.max(1, Math.min(wanted, most))) / 2;
    this.restSpace = draw.normal(2.5, 0.7, 1, 4.5);
    LocalDate on = mouth.assessedOn.plusDays(draw.whole(7, 28));
    this.first = bite("bite-1", on, mouth.overjet, mouth.overbite, habitual, advance);
    this.appliance = twinBlock("app-1", first, null);
  }

  private static double half(double millimetres) {
    return StrictMath.round(millimetres * 2) / 2.0;
  }

  /** A bite registered so far forward of where the jaw stands, which reads {@code start}. */
  Bite bite(
      String id, LocalDate on, double overjet, double overbite, double start, double forward) {
    double opening = Math.max(6, Math.min(8.5, overbite + 2));
    double clearance = half(opening - overbite);
    // A premolar opens about 0.92 and a molar about 0.83 of what the incisors do: the worked
    // example
    // of the block geometry in clinical.md (5.53 and 4.95 of 6.0).
    double premolar = half((overbite + clearance) * 0.92 + draw.normal(0, 0.3, -0.5, 0.5));
    double molar = half((overbite + clearance) * 0.83 + draw.normal(0, 0.3, -0.5, 0.5));
    double midline = half(draw.normal(0, 0.7, -2, 2));
    boolean midlines = draw.chance(0.8);
    return new Bite(
        id,
        on,
        Draw.half(overjet),
        Draw.half(overbite),
        Draw.half(overjet - forward),
        draw.chance(0.75) || slide > 0 ? Draw.half(start - slide) : null,
        Draw.half(start),
        Draw.half(start + forward),
        Draw.half(start - slide + path),
        Draw.half(clearance),
        draw.chance(0.95) ? Draw.half(premolar) : null,
        draw.chance(0.9) ? Draw.half(molar) : null,
        draw.chance(0.7) ? Draw.half(restSpace) : null,
        Draw.half(draw.normal(9.3, 0.8, 7, 12)),
        Draw.half(draw.normal(8, 0.7, 6, 10)),
        midlines ? Draw.half(midline) : null,
        midlines ? Draw.half(midline + draw.normal(0, 0.35, -1.5, 1.5)) : null,
        draw.chance(0.8) ? mouth.crossbite : null,
        draw.chance(0.85) ? draw.chance(0.95) : null);
  }

  /** A twin block built to a bite. */
  Appliance twinBlock(String id, Bite bite, @Nullable String remakeOf) {
    LocalDate ordered = bite.recordedOn().plusDays(draw.whole(0, 4));
    LocalDate due = ordered.plusDays(draw.whole(8, 14));
    boolean expands = mouth.crossbite || draw.chance(0.25);
    Length premolar = bite.premolarClearance();
    Length molar = bite.molarClearance();
    return new Appliance(
        id,
        ApplianceType.TWIN_BLOCK,
        bite.id(),
        ordered,
        due.isBefore(Mouth.AS_OF) ? due.plusDays(draw.whole(0, 1)) : null,
        null,
        new Angle(new BigDecimal(draw.chance(0.85) ? "70" : draw.pick(List.of("45", "65", "75")))),
        premolar != null && molar != null ? new BlockHeights(premolar, molar) : null,
        blocks(),
        clasps(),
        draw.chance(0.3)
            ? new LabialBow(Arch.UPPER, Draw.tenth(draw.chance(0.5) ? 0.7 : 0.8))
            : null,
        draw.chance(0.4),
        expands
            ? new Screw(Arch.UPPER, new Length(new BigDecimal("0.2")), draw.whole(10, 30), 7)
            : null,
        material(),
        alloy(),
        draw.chance(0.8) ? "B-" + draw.whole(1000, 9999) : null,
        people.laboratory() == null ? null : lab(due, remakeOf),
        draw.chance(0.8) ? "Made to prescription for this patient alone." : null);
  }

  String material() {
    return mouth.allergies.contains("acrylic")
        ? "polyamide free of methacrylate"
        : draw.chance(0.7) ? "heat-cured acrylic" : "cold-cured acrylic";
  }

  @Nullable String alloy() {
    return mouth.allergies.contains("nickel")
        ? "nickel-free steel"
        : draw.chance(0.9) ? "stainless steel" : null;
  }

  /** Papers of a custom-made device are kept ten years: from memory of EU 2017/745, annex XIII. */
  LabOrder lab(LocalDate due, @Nullable String remakeOf) {
    return new LabOrder(
        due,
        draw.chance(0.5) ? LabOrder.Records.SCAN : LabOrder.Records.IMPRESSIONS,
        true,
        draw.chance(0.5) ? draw.pick(List.of("sea green", "clear", "coral", "night blue")) : null,
        remakeOf,
        10);
  }

  private List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    for (Side side : Side.values()) {
      boolean right = side == Side.RIGHT;
      Tooth upperFront = mouth.first(right ? "15" : "25", right ? "55" : "65", right ? "16" : "26");
      Tooth upperBack = mouth.first(right ? "16" : "26");
      Tooth lowerFront = mouth.first(right ? "44" : "34", right ? "84" : "74", right ? "45" : "35");
      Tooth lowerBack = mouth.first(right ? "45" : "35", right ? "85" : "75", right ? "44" : "34");
      if (upperFront != null && upperBack != null) {
        blocks.add(new Block(Arch.UPPER, side, upperFront, upperBack));
      }
      if (lowerFront != null && lowerBack != null) {
        blocks.add(new Block(Arch.LOWER, side, lowerFront, lowerBack));
      }
    }
    return blocks;
  }

  private List<Clasp> clasps() {
    Clasp.Kind kind = draw.chance(0.6) ? Clasp.Kind.ADAMS : Clasp.Kind.DELTA;
    List<Clasp> clasps = new ArrayList<>();
    clasp(clasps, kind, 0.7, mouth.first("16"));
    clasp(clasps, kind, 0.7, mouth.first("26"));
    if (draw.chance(0.6)) {
      clasp(clasps, kind, 0.6, mouth.first("14"));
      clasp(clasps, kind, 0.6, mouth.first("24"));
    }
    clasp(clasps, kind, 0.7, mouth.first("44", "46"));
    clasp(clasps, kind, 0.7, mouth.first("34", "36"));
    if (draw.chance(0.5)) {
      clasp(clasps, Clasp.Kind.BALL_ENDED, 0.8, mouth.first("41"));
      clasp(clasps, Clasp.Kind.BALL_ENDED, 0.8, mouth.first("31"));
    }
    return clasps;
  }

  private static void clasp(
      List<Clasp> clasps, Clasp.Kind kind, double wire, @Nullable Tooth tooth) {
    if (tooth != null) {
      clasps.add(new Clasp(tooth, kind, Draw.tenth(wire)));
    }
  }

  /** Most bites beyond the usual share have a clinician's reason with them. */
  List<Acceptance> acceptances() {
    boolean exceeds = slide + advance > 0.7 * path;
    if (!exceeds || first.retrudedReading() == null || draw.chance(0.4)) {
      return List.of();
    }
    return List.of(
        new Acceptance(
            "bite-share-exceeded",
            first.id(),
            Map.of(
                "activation", new Decimal(Draw.half(slide + advance).value()),
                "path", new Decimal(Draw.half(path).value()),
                "share", Draw.rounded((slide + advance) / path, 4)),
            "Held without strain for ten minutes; seen again after a week.",
            new Acceptance.By(people.clinician().identifier(), people.clinician().family()),
            first.recordedOn()));
  }
}
