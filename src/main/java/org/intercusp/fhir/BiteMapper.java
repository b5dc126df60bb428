package org.intercusp.fhir;

import java.math.RoundingMode;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.analysis.bite.IntergingivalHeight;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Share;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** A construction bite as one Observation with a component a reading. */
final class BiteMapper {

  static final Concept CODE = Codes.measurement("construction-bite");

  private static final Panel<Bite> PANEL = panel();

  private static Panel<Bite> panel() {
    Kind<Length> mm = Kind.quantity(Unit.MILLIMETRE);
    return new Panel<Bite>(Role.BITE, CODE)
        .part("overjetHabitual", code("overjet-habitual"), mm, Bite::overjetHabitual)
        .part("overbiteHabitual", code("overbite-habitual"), mm, Bite::overbiteHabitual)
        .part("overjetInBite", code("overjet"), mm, Bite::overjetInBite)
        .part("retrudedReading", code("retruded-reading"), mm, Bite::retrudedReading)
        .part("habitualReading", code("habitual-reading"), mm, Bite::habitualReading)
        .part("registeredReading", code("registered-reading"), mm, Bite::registeredReading)
        .part("maximumReading", code("maximum-reading"), mm, Bite::maximumReading)
        .part("incisalClearance", code("incisal-clearance"), mm, Bite::incisalClearance)
        .part("premolarClearance", code("premolar-clearance"), mm, Bite::premolarClearance)
        .part("molarClearance", code("molar-clearance"), mm, Bite::molarClearance)
        .part("restSpace", code("rest-space"), mm, Bite::restSpace)
        .part("upperIncisorHeight", code("upper-incisor-height"), mm, Bite::upperIncisorHeight)
        .part("lowerIncisorHeight", code("lower-incisor-height"), mm, Bite::lowerIncisorHeight)
        .part("lowerMidlineHabitual", code("midline-habitual"), mm, Bite::lowerMidlineHabitual)
        .part("lowerMidlineInBite", code("midline"), mm, Bite::lowerMidlineInBite)
        .part("crossbiteInBite", code("crossbite"), Kind.bool(), Bite::crossbiteInBite)
        .part("comfortable", code("comfortable"), Kind.bool(), Bite::comfortable)
        .computed(code("share"), Kind.quantity(Unit.SHARE), BiteMapper::share)
        .computed(
            code("height-in-occlusion"), mm, bite -> IntergingivalHeight.of(bite).inOcclusion())
        .computed(code("height"), mm, bite -> IntergingivalHeight.of(bite).inBite());
  }

  /** To three places: more would say more than a sliding scale can. */
  private static @Nullable Share share(Bite bite) {
    return ConstructionBite.of(bite, ReadingError.RULER).share()
            instanceof Reckoned.Known<Share> known
        ? new Share(known.value().value().setScale(3, RoundingMode.HALF_EVEN))
        : null;
  }

  private static Concept code(String part) {
    return Codes.measurement("bite-" + part);
  }

  void toFhir(Bite bite, Writing writing) {
    writing.observe(PANEL, bite, bite.recordedOn(), bite.id());
  }

  void fromFhir(Draft root, Reading reading) {
    root.array("bites");
    for (Observation resource : reading.observations(CODE)) {
      String path = reading.path(resource);
      Draft draft = root.element("bites", path);
      draft.put("id", reading.id(resource), path + ".identifier");
      Dated.put(draft, "recordedOn", resource, path);
      PANEL.read(resource, draft, reading);
    }
  }
}
