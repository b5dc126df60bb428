package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Angle;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Appliance.Clasp;
import org.intercusp.treatment.Appliance.LabialBow;
import org.intercusp.treatment.ApplianceType;
import org.jspecify.annotations.Nullable;

/** The upper plates that follow the blocks. */
final class FollowOn {

  private final Draw draw;
  private final Mouth mouth;
  private final Plan plan;

  FollowOn(Draw draw, Mouth mouth, Plan plan) {
    this.draw = draw;
    this.mouth = mouth;
    this.plan = plan;
  }

  /** A plate with an inclined plane in front for the support, or a plain one for the retention. */
  Appliance made(String id, LocalDate ordered, @Nullable LocalDate fitted, boolean inclined) {
    List<Clasp> clasps = new ArrayList<>();
    for (String code : List.of("16", "26")) {
      if (mouth.has(new Tooth(code))) {
        clasps.add(new Clasp(new Tooth(code), Clasp.Kind.ADAMS, Draw.tenth(0.7)));
      }
    }
    return new Appliance(
        id,
        inclined ? ApplianceType.ANTERIOR_INCLINED_PLANE : ApplianceType.RETAINER,
        null,
        ordered,
        fitted,
        null,
        inclined && draw.chance(0.7) ? Angle.of("70") : null,
        null,
        List.of(),
        clasps,
        new LabialBow(Arch.UPPER, Draw.tenth(0.7)),
        false,
        null,
        plan.material(),
        plan.alloy(),
        null,
        plan.lab(ordered.plusDays(12), null),
        null);
  }
}
