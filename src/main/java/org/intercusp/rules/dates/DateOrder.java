package org.intercusp.rules.dates;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** Things were done in an order in which they can be done, and none later than the day it is. */
final class DateOrder implements Rule {

  static final String CODE = "date-order";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .neverAcceptable()
        .compares(
            "birth, assessment, bites, orders, fittings, reviews and the start outcome with each"
                + " other, and everything done with the day the record speaks of")
        .limit(
            "birth < assessed <= bites; bite <= ordered <= fitted for each appliance; reviews"
                + " not before the first fitting; start outcome not after it; measured wear from"
                + " before to; nothing done after asOf (calendar days)")
        .about("/**", "Bundle.entry.resource.ofType(CarePlan).period")
        .remedy("Correct the dates.")
        .samples(
            Sample.failing(
                "/appliances/0/fittedOn", "{\"/appliances/0/fittedOn\": \"2026-02-02\"}"),
            Sample.passing("{\"/appliances/0/fittedOn\": \"2026-02-03\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Treatment treatment = about.treatment();
    LocalDate assessed = treatment.diagnosis().assessedOn();
    Pointer assessedAt = Pointer.of("diagnosis", "assessedOn");
    if (!treatment.patient().birthDate().isBefore(assessed)) {
      early(
          found,
          assessedAt,
          treatment.id(),
          "assessment",
          assessed,
          "birth",
          treatment.patient().birthDate());
    }
    for (int i = 0; i < treatment.bites().size(); i++) {
      Bite bite = treatment.bites().get(i);
      Pointer at = Pointer.of("bites", i, "recordedOn");
      inOrder(found, at, bite.id(), "bite", bite.recordedOn(), "assessment", assessed);
    }
    appliances(about, found);
    fromFitting(about, found);
    notLater(about, found);
  }

  private static void appliances(Case about, Findings found) {
    List<Appliance> appliances = about.treatment().appliances();
    for (int i = 0; i < appliances.size(); i++) {
      Appliance appliance = appliances.get(i);
      LocalDate bite = about.biteOf(appliance).map(Bite::recordedOn).orElse(null);
      Pointer at = Pointer.of("appliances", i);
      inOrder(
          found,
          at.child("orderedOn"),
          appliance.id(),
          "order",
          appliance.orderedOn(),
          "bite",
          bite);
      inOrder(
          found,
          at.child("fittedOn"),
          appliance.id(),
          "fitting",
          appliance.fittedOn(),
          "order",
          appliance.orderedOn());
    }
  }

  private static void fromFitting(Case about, Findings found) {
    LocalDate fitted = about.firstFitting().orElse(null);
    List<Review> reviews = about.treatment().reviews();
    for (int i = 0; i < reviews.size(); i++) {
      Review review = reviews.get(i);
      Pointer at = Pointer.of("reviews", i);
      inOrder(
          found, at.child("date"), review.id(), "review", review.date(), "first fitting", fitted);
      Review.WearMeasured wear = review.wearMeasured();
      if (wear != null) {
        Pointer to = at.child("wearMeasured").child("to");
        inOrder(
            found, to, review.id(), "end of measured wear", wear.to(), "beginning", wear.from());
      }
    }
    List<Outcome> outcomes = about.treatment().outcomes();
    for (int i = 0; i < outcomes.size(); i++) {
      Outcome outcome = outcomes.get(i);
      if (outcome.phase() == Outcome.Phase.START
          && fitted != null
          && outcome.date().isAfter(fitted)) {
        Pointer at = Pointer.of("outcomes", i, "date");
        report(
            found,
            at,
            outcome.id(),
            outcome.date(),
            fitted,
            "The start outcome (%s) lies after the first fitting (%s)."
                .formatted(outcome.date(), fitted));
      }
    }
  }

  private static void notLater(Case about, Findings found) {
    for (Done done : Done.of(about.treatment())) {
      if (done.day().isAfter(about.day())) {
        report(
            found,
            done.at(),
            done.subject(),
            done.day(),
            about.day(),
            "The %s (%s) lies after the day it is (%s)."
                .formatted(done.what(), done.day(), about.day()));
      }
    }
  }

  private static void inOrder(
      Findings found,
      Pointer at,
      String subject,
      String later,
      @Nullable LocalDate day,
      String earlier,
      @Nullable LocalDate notBefore) {
    if (day != null && notBefore != null && day.isBefore(notBefore)) {
      early(found, at, subject, later, day, earlier, notBefore);
    }
  }

  private static void early(
      Findings found,
      Pointer at,
      String subject,
      String later,
      LocalDate day,
      String earlier,
      LocalDate notBefore) {
    report(
        found,
        at,
        subject,
        day,
        notBefore,
        "The %s (%s) does not come after the %s (%s).".formatted(later, day, earlier, notBefore));
  }

  private static void report(
      Findings found, Pointer at, String subject, LocalDate day, LocalDate limit, String message) {
    found
        .error(at, subject)
        .value(day.toString())
        .limit(limit.toString())
        .keeping("days", ChronoUnit.DAYS.between(limit, day))
        .says(message);
  }
}
