package org.intercusp.fhir;

import java.util.Objects;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.intercusp.analysis.film.Cephalometry;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Vertebrae;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * A tracing of a lateral film: two components a landmark, forward and up, in mm, and one for each
 * angle, length and share that is measured on it.
 */
final class FilmMapper {

  private static final Concept CODE = Codes.measurement("cephalometric-tracing");
  private static final Kind<Decimal> MM = Kind.decimal(Unit.MILLIMETRE);

  private static final Panel<Film> PANEL = panel();

  private static Panel<Film> panel() {
    Kind<org.intercusp.treatment.BodyShape> shape = Kind.coded(LocalSystem.BODY_SHAPE);
    return new Panel<Film>(Role.FILM, CODE)
        .part("jaw", code("film-jaw"), Kind.coded(LocalSystem.JAW_POSITION), Film::jaw)
        .part(
            "magnification",
            code("film-magnification"),
            Kind.decimal(Unit.PERCENT),
            Film::magnification)
        .part("gonion", code("gonion"), Kind.coded(LocalSystem.GONION), Film::gonion)
        .part("vertebrae/c2Concave", code("c2-concave"), Kind.bool(), in(Vertebrae::c2Concave))
        .part("vertebrae/c3Concave", code("c3-concave"), Kind.bool(), in(Vertebrae::c3Concave))
        .part("vertebrae/c4Concave", code("c4-concave"), Kind.bool(), in(Vertebrae::c4Concave))
        .part("vertebrae/c3Shape", code("c3-shape"), shape, in(Vertebrae::c3Shape))
        .part("vertebrae/c4Shape", code("c4-shape"), shape, in(Vertebrae::c4Shape))
        .figures(Measured.ON_FILMS, film -> Cephalometry.of(film).figures());
  }

  private static Concept code(String code) {
    return Codes.measurement(code);
  }

  private static <V> Panel.Getter<Film, V> in(Panel.Getter<Vertebrae, V> getter) {
    return film -> {
      Vertebrae vertebrae = film.vertebrae();
      return vertebrae == null ? null : getter.of(vertebrae);
    };
  }

  void toFhir(Film film, Writing writing) {
    Observation resource =
        Objects.requireNonNull(
            writing.observe(PANEL, film, film.takenOn(), film.id()), "a film has a jaw position");
    film.landmarks()
        .forEach(
            (mark, point) -> {
              coordinate(resource, mark, "-x", point.x(), writing.canonicals());
              coordinate(resource, mark, "-y", point.y(), writing.canonicals());
            });
    Repeats.measurer(resource, film.tracer());
    Repeats.repeatOf(resource, Role.FILM, film.repeatOf(), writing);
  }

  private static void coordinate(
      Observation to, Landmark mark, String axis, Decimal value, Canonicals canonicals) {
    Concept code = LocalSystem.LANDMARK.concept(mark.code() + axis);
    to.addComponent().setCode(code.concept(canonicals)).setValue(MM.out().apply(value, canonicals));
  }

  void fromFhir(Draft root, Reading reading) {
    for (Observation resource : reading.observations(CODE)) {
      String path = reading.path(resource);
      Draft draft = root.element("films", path);
      draft.put("id", reading.id(resource), path + ".identifier");
      Dated.put(draft, "takenOn", resource, path);
      PANEL.read(resource, draft, reading);
      Draft landmarks = draft.object("landmarks", path);
      for (Landmark mark : Landmark.values()) {
        JsonNode x = coordinate(resource, mark.code() + "-x", reading);
        JsonNode y = coordinate(resource, mark.code() + "-y", reading);
        if (x != null && y != null) {
          landmarks.array(mark.code()).add(x).add(y);
        } else if (x != null || y != null) {
          reading.fault("missing-member", path, mark.code(), "a landmark has x and y");
        }
      }
      Repeats.measurer(resource, draft, "tracer", path);
      Repeats.repeatOf(resource, draft, path, reading);
    }
  }

  private static @Nullable JsonNode coordinate(Observation from, String code, Reading reading) {
    Concept concept = LocalSystem.LANDMARK.concept(code);
    for (int i = 0; i < from.getComponent().size(); i++) {
      ObservationComponentComponent part = from.getComponent().get(i);
      if (reading.is(concept, part.getCode()) && part.hasValue()) {
        String at = reading.path(from) + ".component[" + i + "].value";
        return reading.value(MM, part.getValue(), at);
      }
    }
    return null;
  }
}
