package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.summary.wording.Codes;
import org.intercusp.treatment.Appliance;

/** The parts of an appliance on the chart of the teeth: a sign and words for each. */
final class ApplianceParts {

  private static final int CANINE = 3;

  private ApplianceParts() {}

  static boolean covers(Appliance appliance, Arch arch, Side side, int position) {
    return appliance.blocks().stream()
        .anyMatch(
            block ->
                block.arch() == arch
                    && block.side() == side
                    && block.mesialTooth().position() <= position
                    && position <= block.distalTooth().position());
  }

  static String inWords(Appliance appliance) {
    List<String> said = new ArrayList<>();
    said.add("Clasps: " + (appliance.clasps().isEmpty() ? "none" : clasps(appliance)) + ".");
    Appliance.LabialBow bow = appliance.labialBow();
    if (bow != null) {
      said.add("Labial bow in the " + bow.arch().code() + " arch, wire " + wire(bow.wire()) + ".");
    }
    if (appliance.incisalCapping()) {
      said.add("Capping over the lower incisors.");
    }
    Appliance.Screw screw = appliance.screw();
    if (screw != null) {
      said.add("Expansion screw in the " + screw.arch().code() + " arch.");
    }
    return String.join(" ", said);
  }

  private static String clasps(Appliance appliance) {
    return appliance.clasps().stream()
        .map(
            each ->
                Codes.words(each.kind()) + " on " + each.tooth() + ", wire " + wire(each.wire()))
        .collect(Collectors.joining("; "));
  }

  private static String wire(org.intercusp.measure.Length wire) {
    return BiteDrawing.mm(wire.value());
  }

  /** A crown with rounded corners; a deciduous one alone is smaller. */
  static Outline crown(ToothShape shape, List<Tooth> here) {
    double size = here.stream().allMatch(Tooth::deciduous) ? 0.78 : 1;
    double w = shape.width() / 2 * size;
    double d = shape.depth() / 2 * size;
    return Outline.from(shape.from(d, 0))
        .bend(shape.from(d, w), shape.from(0, w))
        .bend(shape.from(-d, w), shape.from(-d, 0))
        .bend(shape.from(-d, -w), shape.from(0, -w))
        .bend(shape.from(d, -w), shape.from(d, 0))
        .close();
  }

  static void draw(Svg svg, Appliance appliance, Spot upper, Spot lower) throws XMLStreamException {
    for (Appliance.Clasp clasp : appliance.clasps()) {
      clasp(svg, clasp, clasp.tooth().arch() == Arch.UPPER ? upper : lower);
    }
    Appliance.LabialBow bow = appliance.labialBow();
    if (bow != null) {
      bow(svg, bow, bow.arch() == Arch.UPPER ? upper : lower);
    }
    if (appliance.incisalCapping()) {
      capping(svg, lower);
    }
    Appliance.Screw screw = appliance.screw();
    if (screw != null) {
      screw(svg, screw, screw.arch() == Arch.UPPER ? upper.plus(0, 26) : lower.plus(0, -26));
    }
  }

  private static void clasp(Svg svg, Appliance.Clasp clasp, Spot front) throws XMLStreamException {
    ToothShape shape = ToothShape.of(clasp.tooth(), front);
    double edge = shape.depth() / 2;
    double w = shape.width() / 2 * 0.7;
    switch (clasp.kind()) {
      case ADAMS ->
          svg.path(
              Outline.from(shape.from(edge - 1.5, -w))
                  .to(shape.from(edge + 1, -w))
                  .to(shape.from(edge + 1, w))
                  .to(shape.from(edge - 1.5, w)),
              Ink.NONE,
              Ink.VERMILION,
              0.7);
      case DELTA ->
          svg.path(
              Outline.from(shape.from(edge - 1.5, -w))
                  .to(shape.from(edge + 1.6, 0))
                  .to(shape.from(edge - 1.5, w))
                  .close(),
              Ink.NONE,
              Ink.VERMILION,
              0.7);
      case BALL_ENDED -> svg.dot(shape.from(edge, -w - 0.8), 1, Ink.VERMILION);
    }
    Spot words = shape.from(edge + 2.2, 0);
    boolean left = words.x() < front.x();
    double drop = clasp.tooth().arch() == Arch.UPPER ? 0.8 : 1.6;
    svg.text(
        words.plus(0, drop),
        left ? "end" : "start",
        Codes.words(clasp.kind()) + " " + bare(clasp),
        2.3);
  }

  private static String bare(Appliance.Clasp clasp) {
    return clasp.wire().value().stripTrailingZeros().toPlainString();
  }

  private static void bow(Svg svg, Appliance.LabialBow bow, Spot front) throws XMLStreamException {
    boolean upper = bow.arch() == Arch.UPPER;
    List<Spot> spots = new ArrayList<>();
    for (int position = CANINE; position >= 1; position--) {
      spots.add(outside((upper ? "1" : "4") + position, front));
    }
    for (int position = 1; position <= CANINE; position++) {
      spots.add(outside((upper ? "2" : "3") + position, front));
    }
    svg.path(Outline.through(spots), Ink.NONE, Ink.BLUE, 0.9);
    svg.text(front.plus(0, upper ? -5.6 : 8.2), "middle", "labial bow " + wire(bow.wire()), 2.3);
  }

  private static Spot outside(String tooth, Spot front) {
    ToothShape shape = ToothShape.of(new Tooth(tooth), front);
    return shape.from(shape.depth() / 2 + 0.9, 0);
  }

  private static void capping(Svg svg, Spot front) throws XMLStreamException {
    List<Spot> spots = new ArrayList<>();
    for (String tooth : List.of("42", "41", "31", "32")) {
      ToothShape shape = ToothShape.of(new Tooth(tooth), front);
      spots.add(shape.from(shape.depth() / 2 - 1, 0));
    }
    svg.path(Outline.through(spots), Ink.NONE, Ink.SKY, 1.6);
    svg.text(front.plus(0, -9), "middle", "incisal capping", 2.3);
  }

  private static void screw(Svg svg, Appliance.Screw screw, Spot at) throws XMLStreamException {
    svg.path(
        Outline.through(
                List.of(at.plus(-4, -1.3), at.plus(4, -1.3), at.plus(4, 1.3), at.plus(-4, 1.3)))
            .close(),
        Ink.NONE,
        Ink.LINE,
        0.5);
    svg.line(at.plus(-7, 0), at.plus(7, 0), Ink.LINE, 0.4);
    svg.text(at.plus(0, -2.6), "middle", "screw", 2.3);
    svg.text(at.plus(0, 4.4), "middle", wire(screw.turn()) + " a quarter turn", 2.3);
  }
}
