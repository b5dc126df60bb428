package org.intercusp.scenario;

import org.intercusp.treatment.Identifier;

/**
 * One invented clinic among those that submit to a registry: how many it treats, how well it keeps
 * its patients and its records. Spreads are common practice, no source.
 *
 * @param identifier of the clinic
 * @param dropout what it adds to the log-odds of giving up
 * @param skill share of the correction that it reaches, around 1
 * @param diligence probability that a field that may be left out is filled in, relative to others
 */
record Practice(Identifier identifier, double dropout, double skill, double diligence) {

  /** How many clinics there are. */
  static final int COUNT = 24;

  private static final String SYSTEM = "https://registry.example/clinics";

  /** Larger clinics come first: the shares fall as 1 over the square root of the rank. */
  static Practice drawn(long seed, Draw draw) {
    double at = draw.between(0, 1);
    return number(seed, (int) Math.min(COUNT - 1, COUNT * at * at));
  }

  static Practice number(long seed, int number) {
    // One clinic is the same in all cases of a seed, so its draws hang on the seed alone.
    Draw draw = new Draw(seed ^ 0x5EED0C11L, number);
    return new Practice(
        new Identifier(SYSTEM, "clinic-%02d".formatted(number + 1)),
        draw.normal(0, 0.35, -0.9, 0.9),
        draw.normal(1, 0.06, 0.8, 1.12),
        draw.normal(1, 0.05, 0.8, 1.08));
  }

  Practice next(long seed) {
    int number = Integer.parseInt(identifier.value().substring("clinic-".length()));
    return number(seed, number % COUNT);
  }
}
