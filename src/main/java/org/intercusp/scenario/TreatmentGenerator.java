package org.intercusp.scenario;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Treatment;

/**
 * Invented treatments of the Harbour Lane clinic, as a clinic's records are in the middle of a
 * year: some just planned, some under way, some finished, some given up; most optional members
 * there, some missing. The same count and seed give the same treatments on every machine, and the
 * first ten of a thousand are those of ten. Nobody in them exists. Most are in order; about one
 * bite in twenty goes beyond the usual share of the path, so that the rules have something to say.
 */
public final class TreatmentGenerator {

  /** Treatments, made one by one as the stream is consumed. */
  public Stream<Treatment> treatments(int count, long seed) {
    return IntStream.range(0, count).mapToObj(index -> treatment(seed, index));
  }

  private static Treatment treatment(long seed, int index) {
    Draw draw = new Draw(seed, index);
    String number = Long.toUnsignedString(seed, 36) + "-" + (index + 1);
    Mouth mouth = new Mouth(draw);
    People people = new People(draw, mouth, number);
    Plan plan = new Plan(draw, mouth, people);
    Course course = new Course(draw, mouth, plan, people.seenBy());
    Imaging imaging = new Imaging(draw, mouth, course);
    Outcomes outcomes = new Outcomes(draw, mouth, course);
    List<Acceptance> acceptances = plan.acceptances();
    return new Treatment(
        "HL-" + number,
        Mouth.AS_OF,
        People.CLINIC,
        people.clinician(),
        people.patient(),
        people.referrer(),
        people.laboratory(),
        mouth.diagnosis(),
        course.bites(),
        course.appliances(),
        course.stages(),
        course.reviews(),
        imaging.films(),
        imaging.models(),
        outcomes.all(),
        course.completion(),
        acceptances);
  }
}
