package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.treatment.Appliance;
import org.jspecify.annotations.Nullable;

/**
 * Chart of both arches with the teeth present (ISO 3950 codes), and what an appliance carries by
 * tooth: clasps, blocks, labial bow, capping and screw. A plain picture, not to scale.
 */
public final class TeethChart {

  private static final double WIDTH = 160;
  private static final double HEIGHT = 72;
  private static final Spot UPPER_FRONT = new Spot(40, 14);
  private static final Spot LOWER_FRONT = new Spot(120, 61);

  private final Set<Tooth> present;
  private final @Nullable Appliance appliance;

  private TeethChart(List<Tooth> present, @Nullable Appliance appliance) {
    this.present = new HashSet<>(present);
    this.appliance = appliance;
  }

  /** The teeth present alone. */
  public static String svg(String id, List<Tooth> present) {
    return new TeethChart(present, null).drawn("teeth-" + id);
  }

  /** The teeth present with an appliance. */
  public static String svg(List<Tooth> present, Appliance appliance) {
    return new TeethChart(present, appliance).drawn("teeth-" + appliance.id());
  }

  private String drawn(String id) {
    return Svg.drawing(
        id,
        WIDTH,
        HEIGHT,
        appliance == null ? "Chart of the teeth" : "Chart of the teeth and of " + appliance.id(),
        description(),
        this::draw);
  }

  private String description() {
    String teeth = present.stream().sorted().map(Tooth::code).collect(Collectors.joining(", "));
    String said = present.isEmpty() ? "No teeth recorded." : "Teeth present: " + teeth + ".";
    return appliance == null ? said : said + " " + ApplianceParts.inWords(appliance);
  }

  private void draw(Svg svg) throws XMLStreamException {
    svg.text(new Spot(40, 4), "middle", "Upper arch");
    svg.text(new Spot(120, 4), "middle", "Lower arch");
    arch(svg, Arch.UPPER, UPPER_FRONT);
    arch(svg, Arch.LOWER, LOWER_FRONT);
    svg.text(new Spot(2, 10), "start", "patient's right", Svg.SMALL);
    svg.text(new Spot(158, 10), "end", "patient's left", Svg.SMALL);
    if (appliance != null) {
      ApplianceParts.draw(svg, appliance, UPPER_FRONT, LOWER_FRONT);
    }
  }

  private void arch(Svg svg, Arch arch, Spot front) throws XMLStreamException {
    for (Side side : Side.values()) {
      for (int position = 1; position <= 8; position++) {
        slot(svg, arch, side, position, front);
      }
    }
  }

  private void slot(Svg svg, Arch arch, Side side, int position, Spot front)
      throws XMLStreamException {
    List<Tooth> here = new ArrayList<>();
    for (int first : new int[] {1, 5}) {
      if (first == 1 || position <= 5) {
        Tooth tooth = new Tooth("" + (first + quadrant(arch, side)) + position);
        if (present.contains(tooth)) {
          here.add(tooth);
        }
      }
    }
    ToothShape shape = ToothShape.of(new Tooth("" + (1 + quadrant(arch, side)) + position), front);
    if (!here.isEmpty()) {
      svg.path(ApplianceParts.crown(shape, here), Ink.TOOTH, Ink.EDGE);
    }
    boolean covered = appliance != null && ApplianceParts.covers(appliance, arch, side, position);
    if (covered) {
      svg.path(Outline.through(shape.corners()).close(), Ink.SKY, Ink.ON_TOOTH, 0.5);
    }
    if (here.isEmpty()) {
      svg.line(shape.from(-1, -1), shape.from(1, 1), Ink.EDGE, 0.3);
      svg.line(shape.from(-1, 1), shape.from(1, -1), Ink.EDGE, 0.3);
    } else {
      label(svg, shape, here);
    }
  }

  private static void label(Svg svg, ToothShape shape, List<Tooth> here) throws XMLStreamException {
    String words = here.stream().map(Tooth::code).collect(Collectors.joining("/"));
    svg.dark(shape.middle().plus(0, 0.9), words, here.size() > 1 ? 1.9 : Svg.SMALL);
  }

  private static int quadrant(Arch arch, Side side) {
    if (arch == Arch.UPPER) {
      return side == Side.RIGHT ? 0 : 1;
    }
    return side == Side.LEFT ? 2 : 3;
  }
}
