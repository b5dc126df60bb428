package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.Map;
import org.intercusp.analysis.film.Cephalometry;
import org.intercusp.analysis.film.Face;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;
import org.junit.jupiter.api.Test;

/**
 * Corrected ANB and when it holds, Eur J Orthod 2012;34:719: ANB + 0.5 (81 - SNA) while SN-Mx is 8
 * ± 3 degrees. Tolerance two millionths of a degree, the rounding of the angles it is made of.
 */
class EurJOrthod2012CorrectedAnbTest {

  private static final BigDecimal NOISE = new BigDecimal("0.000002");

  @Test
  void halfOfWhatSnaLacksIsAdded() {
    Cephalometry drawn = Cephalometry.of(Face.film("f", Face.classTwo(), null));
    assertThat(drawn.correctedAnb().result().get())
        .isCloseTo(new BigDecimal("4.75"), within(NOISE));
  }

  @Test
  void theConditionIncludesItsLimits() {
    assertThat(withCant(4.9).correctedAnb().reason()).contains("8 ± 3");
    assertThat(withCant(5).correctedAnb().result()).isPresent();
    assertThat(withCant(11).correctedAnb().result()).isPresent();
    assertThat(withCant(11.1).correctedAnb().reason()).contains("8 ± 3");
  }

  private static Cephalometry withCant(double degrees) {
    Map<Landmark, Point> face = Face.classTwo();
    face.put(Landmark.S, Face.point(0, 0));
    Point n = face.get(Landmark.N);
    double base =
        Math.toDegrees(Math.atan2(n.y().value().doubleValue(), n.x().value().doubleValue()));
    double plane = Math.toRadians(base - degrees);
    face.put(Landmark.PNS, Face.point(10, -40));
    face.put(Landmark.ANS, Face.point(10 + 50 * Math.cos(plane), -40 + 50 * Math.sin(plane)));
    return Cephalometry.of(Face.film("f", face, null));
  }
}
