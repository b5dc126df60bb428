package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.summary.drawing.BlockDrawing;
import org.intercusp.summary.drawing.BlockView;
import org.intercusp.summary.drawing.Monochrome;
import org.intercusp.summary.drawing.TeethChart;
import org.intercusp.summary.wording.Codes;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The sheet a dental laboratory works from, with what a prescription and a statement of a
 * custom-made device carry (from memory of Regulation (EU) 2017/745, Annex XIII, section 1). The
 * patient stands on it by code alone. Black and white.
 */
public final class LaboratorySheet {

  private final Treatment treatment;
  private final Examination examination;
  private final Course course;

  private LaboratorySheet(Treatment treatment, Examination examination, LocalDate on) {
    this.treatment = treatment;
    this.examination = examination;
    this.course = new Course(treatment, on);
  }

  /** The sheet of the appliance ordered last. */
  public static Document of(Treatment treatment, Examination examination, LocalDate on) {
    return new LaboratorySheet(treatment, examination, on).document();
  }

  private Document document() {
    Optional<Appliance> ordered = course.lastOrdered();
    List<List<Panel>> rows =
        ordered
            .map(this::rows)
            .orElseGet(
                () ->
                    List.of(
                        List.of(
                            Panel.wide(
                                "Prescription",
                                new Part.Words(List.of("No appliance is ordered."))))));
    return new Document(
        "laboratory",
        "en",
        "ltr",
        "Laboratory sheet: custom-made device",
        ordered.map(each -> "Appliance " + each.id() + ", treatment ").orElse("Treatment ")
            + treatment.id(),
        rows,
        Cautions.PROFESSIONAL);
  }

  private List<List<Panel>> rows(Appliance appliance) {
    List<List<Panel>> rows = new ArrayList<>();
    if (!examination.mayOrderAppliance()) {
      rows.add(List.of(stopped()));
    }
    rows.add(
        List.of(
            Panel.half("Prescription", prescription(appliance)),
            Panel.half("Order", order(appliance))));
    rows.add(
        List.of(
            Panel.half("Design", design(appliance)), Panel.half("Material", material(appliance))));
    List<Panel> pictures = new ArrayList<>();
    BlockView.of(treatment, appliance, examination.figures())
        .map(view -> new Part.Picture(Monochrome.of(BlockDrawing.svg(view))))
        .ifPresent(picture -> pictures.add(new Panel("Blocks from the side", 2, List.of(picture))));
    pictures.add(
        new Panel(
            "Teeth and clasps",
            pictures.isEmpty() ? 6 : 4,
            List.of(new Part.Picture(Monochrome.of(TeethChart.svg(teeth(appliance), appliance))))));
    rows.add(pictures);
    rows.add(List.of(Panel.half("Clasps", clasps(appliance)), blocksAndBite(appliance)));
    rows.add(List.of(Panel.wide("Clearances of the bite", clearances(appliance))));
    rows.add(List.of(Panel.wide("Statement of the custom-made device", statement(appliance))));
    return rows;
  }

  /** Why stays with the clinic: a laboratory needs to know that it must wait, not of the harm. */
  private Panel stopped() {
    return Panel.wide(
        "Before work begins",
        new Part.Alarm(
            List.of(
                "Order stopped: make, change or send out nothing before the clinic releases the"
                    + " order. Please ask "
                    + treatment.clinic().name()
                    + ".")));
  }

  private List<org.intercusp.dentition.Tooth> teeth(Appliance appliance) {
    return appliance.teethPresent() == null
        ? treatment.diagnosis().teethPresent()
        : appliance.teethPresent();
  }

  private Part prescription(Appliance appliance) {
    return new Lines()
        .add("Patient code", treatment.patient().identifier().value())
        .person("Prescriber", treatment.clinician(), treatment.clinic())
        .add("Prescriber's number", treatment.clinician().identifier().value())
        .organisation("Clinic", "Clinic's contact", treatment.clinic())
        .add("Device", appliance.type())
        .part();
  }

  private Part order(Appliance appliance) {
    Appliance.LabOrder lab = appliance.lab();
    return new Lines()
        .organisation("Laboratory", "Laboratory's contact", treatment.laboratory())
        .add("Ordered", appliance.orderedOn())
        .add("Required", lab == null ? null : lab.requiredOn())
        .add("Records sent", lab == null ? null : lab.records())
        .add("Disinfected", lab == null ? null : Lines.yesNo(lab.disinfected()))
        .add("Colour", lab == null ? null : lab.colour())
        .where("Remake of", lab == null ? null : lab.remakeOf())
        .part();
  }

  private static Part design(Appliance appliance) {
    Appliance.BlockHeights heights = appliance.blockHeights();
    Appliance.LabialBow bow = appliance.labialBow();
    Appliance.Screw screw = appliance.screw();
    Lines lines = new Lines();
    if (appliance.type() != ApplianceType.RETAINER || appliance.inclineAngle() != null) {
      lines.add("Incline, occlusal plane", appliance.inclineAngle());
    }
    if (appliance.type() == ApplianceType.TWIN_BLOCK || heights != null) {
      lines
          .add("Block height, premolars", heights == null ? null : heights.premolar())
          .add("Block height, molars", heights == null ? null : heights.molar());
    }
    return lines
        .add(
            "Labial bow",
            bow == null ? "none" : bow.arch().code() + " arch, wire " + Numbers.of(bow.wire()))
        .add("Incisal capping", Lines.yesNo(appliance.incisalCapping()))
        .add("Screw", screw == null ? "none" : screw(screw))
        .part();
  }

  private static String screw(Appliance.Screw screw) {
    return screw.arch().code()
        + " arch, "
        + Numbers.of(screw.turn())
        + " a quarter turn, "
        + screw.plannedTurns()
        + (screw.plannedTurns() == 1 ? " turn, " : " turns, ")
        + Lines.every(screw.daysPerTurn());
  }

  private Part material(Appliance appliance) {
    return new Lines()
        .add("Material", appliance.material())
        .add("Alloy", appliance.alloy())
        .add("Batch", appliance.batch())
        .add("Patient's allergies", Lines.list(treatment.patient().allergies()))
        .part();
  }

  private static Part clasps(Appliance appliance) {
    if (appliance.clasps().isEmpty()) {
      return new Part.Words(List.of("No clasps."));
    }
    return new Part.Grid(
        List.of("Tooth (ISO 3950)", "Clasp", "Wire"),
        appliance.clasps().stream()
            .map(
                each ->
                    List.of(each.tooth().code(), Codes.words(each.kind()), Numbers.of(each.wire())))
            .toList());
  }

  private static Part blocks(Appliance appliance) {
    if (appliance.blocks().isEmpty()) {
      return new Part.Words(List.of("No blocks."));
    }
    return new Part.Grid(
        List.of("Block", "From tooth", "To tooth"),
        appliance.blocks().stream()
            .map(
                each ->
                    List.of(
                        each.arch().code() + " " + each.side().code(),
                        each.mesialTooth().code(),
                        each.distalTooth().code()))
            .toList());
  }

  /**
   * What the models are held together by beyond the clearances, beside the longer list of clasps.
   */
  private Panel blocksAndBite(Appliance appliance) {
    Part blocks = blocks(appliance);
    return course
        .bite(appliance)
        .map(bite -> Panel.half("Blocks and bite", blocks, bite(bite)))
        .orElseGet(() -> Panel.half("Blocks", blocks));
  }

  private static Part bite(Bite bite) {
    return new Lines()
        .add("Overjet in the bite", bite.overjetInBite())
        .add("Forward of habitual", bite.registeredReading().minus(bite.habitualReading()))
        .add("Lower midline, bite", midline(bite.lowerMidlineInBite()))
        .add("Lower midline, habitual", midline(bite.lowerMidlineHabitual()))
        .add("Crossbite in the bite", Lines.yesNo(bite.crossbiteInBite()))
        .part();
  }

  /** Towards the patient's right is positive. */
  private static @Nullable String midline(@Nullable Length lower) {
    if (lower == null) {
      return null;
    }
    return lower.value().signum() == 0
        ? "on the upper"
        : Numbers.of(lower.absolute())
            + " to the patient's "
            + (lower.isAbove(Length.ZERO) ? "right" : "left");
  }

  private Part clearances(Appliance appliance) {
    Optional<Bite> bite = course.bite(appliance);
    if (bite.isEmpty()) {
      return new Part.Words(List.of("This appliance is made without a construction bite."));
    }
    Bite from = bite.orElseThrow();
    return new Part.Grid(
        List.of(
            "Vertical clearance",
            "Registered " + from.recordedOn(),
            "Measured on the articulated models before processing",
            "Within 0.5 mm (yes or no)"),
        List.of(
            row("Incisors", from.incisalClearance()),
            row("Premolars", from.premolarClearance()),
            row("Molars", from.molarClearance())));
  }

  private static List<String> row(String name, @Nullable Length registered) {
    return List.of(name, registered == null ? Lines.NOT_RECORDED : Numbers.of(registered), "", "");
  }

  private Part statement(Appliance appliance) {
    Appliance.LabOrder lab = appliance.lab();
    Lines lines =
        new Lines()
            .add(
                "Exclusive use",
                "This device is made for the sole use of the patient with the code "
                    + treatment.patient().identifier().value()
                    + ".")
            .add(
                "Prescription",
                "It has the characteristics above, as prescribed by "
                    + Lines.name(treatment.clinician())
                    + " on "
                    + appliance.orderedOn()
                    + ".")
            .add(
                "Conformity",
                "It meets the general safety and performance requirements that apply to it, except,"
                    + " with reasons: ______________________________")
            .add(
                "Kept for",
                lab == null
                    ? null
                    : Unit.YEAR.behind(lab.retentionYears()) + " after the device is delivered")
            .where("Laboratory's own words", appliance.statement());
    return lines.add("Made by, date, signature", "______________________________").part();
  }
}
