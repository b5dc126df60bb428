package org.intercusp.scenario;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.dentition.Tooth;

/** Which teeth an invented patient has. */
final class Eruption {

  /**
   * Mean ages of eruption of the permanent teeth from central incisor to second molar, upper and
   * lower: common practice, no source.
   */
  private static final double[] UPPER = {7.2, 8.2, 11.4, 10.7, 11.5, 6.3, 12.3};

  private static final double[] LOWER = {6.3, 7.4, 10.4, 10.6, 11.6, 6.1, 11.9};

  private Eruption() {}

  /**
   * The teeth in the mouth, deciduous ones where their successors are not through.
   *
   * @param missing takes the teeth that never formed: about 6 % of people lack one, most often a
   *     lower second premolar or an upper lateral incisor (common practice, no source)
   */
  static List<Tooth> teeth(Draw draw, double age, List<Tooth> missing) {
    double pace = draw.normal(0, 0.8, -1.8, 1.8);
    if (draw.chance(0.06)) {
      missing.add(new Tooth(draw.pick(List.of("35", "45", "12", "22", "15", "25"))));
    }
    List<Tooth> teeth = new ArrayList<>();
    for (int quadrant = 1; quadrant <= 4; quadrant++) {
      double[] ages = quadrant <= 2 ? UPPER : LOWER;
      for (int position = 1; position <= 7; position++) {
        Tooth permanent = new Tooth("" + quadrant + position);
        boolean through = age + pace + draw.normal(0, 0.2, -0.5, 0.5) > ages[position - 1];
        // Nobody is fitted before the incisors and first molars are there.
        boolean always = position <= 2 || position == 6;
        if ((through || always) && !missing.contains(permanent)) {
          teeth.add(permanent);
        } else if (position <= 5) {
          teeth.add(new Tooth("" + (quadrant + 4) + position));
        }
      }
    }
    return List.copyOf(teeth);
  }
}
