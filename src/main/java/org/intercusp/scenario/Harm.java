package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.HarmEvent.Code;
import org.intercusp.treatment.HarmEvent.Grade;

/** What goes wrong at invented reviews. Shares are common practice, no source. */
final class Harm {

  private final Draw draw;

  Harm(Draw draw) {
    this.draw = draw;
  }

  List<HarmEvent> at(LocalDate on, int number, boolean active) {
    List<HarmEvent> events = new ArrayList<>();
    LocalDate onset = on.minusDays(draw.whole(1, 9));
    if (active && number == 1 && draw.chance(0.12)) {
      events.add(
          new HarmEvent(
              Code.ULCER, Grade.MILD, false, true, onset, draw.chance(0.8) ? "edge eased" : null));
    }
    if (draw.chance(0.012)) {
      Code code = draw.pick(List.of(Code.WHITE_SPOT, Code.GINGIVITIS, Code.CARIES));
      events.add(new HarmEvent(code, Grade.MILD, false, draw.chance(0.3), onset, null));
    }
    if (draw.chance(0.004)) {
      events.add(
          new HarmEvent(
              Code.INCISOR_TRAUMA, Grade.MODERATE, false, false, onset, "referred to the dentist"));
    }
    if (active && draw.chance(0.0008)) {
      events.add(
          new HarmEvent(
              Code.FRAGMENT_SWALLOWED, Grade.MODERATE, true, true, onset, "seen in hospital"));
    }
    return events;
  }
}
