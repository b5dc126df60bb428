package org.intercusp.rules.review;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.HarmEvent;

/** Serious harm goes out at once and stops the next order. */
final class ReviewHarm implements Rule {

  static final String CODE = "review-harm";
  private static final Set<HarmEvent.Code> ALWAYS =
      EnumSet.of(HarmEvent.Code.FRAGMENT_SWALLOWED, HarmEvent.Code.FRAGMENT_INHALED);

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.URGENT)
        .compares("the adverse events of a review")
        .limit("no serious event, no fragment swallowed or inhaled (a count of events: 0)")
        .about("/reviews/*/adverseEvents/*", "Bundle.entry.resource.ofType(AdverseEvent)")
        .remedy(
            "See to the patient first: an inhaled fragment is an emergency. Report the event; order"
                + " no further appliance before a clinician has answered this.")
        .samples(
            Sample.failing(
                "/reviews/3/adverseEvents/0",
                """
                {"/reviews/3/adverseEvents": [{"code": "fragment-inhaled", "severity": "mild",
                 "serious": false, "suspectedAppliance": true, "onsetOn": "2026-07-12"}]}"""),
            Sample.passing(
                """
                {"/reviews/3/adverseEvents": [{"code": "ulcer", "severity": "severe",
                 "serious": false, "suspectedAppliance": true, "onsetOn": "2026-07-12"}]}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ReviewAt at : ReviewAt.all(about)) {
      List<HarmEvent> events = at.review().adverseEvents();
      for (int i = 0; i < events.size(); i++) {
        HarmEvent event = events.get(i);
        if (event.serious() || ALWAYS.contains(event.code())) {
          kept(found.report(Severity.URGENT, at.at("adverseEvents", i), at.id()), i, event)
              .value(event.code().code())
              .limit("none")
              .says(
                  "Harm was recorded: %s, %s%s, from %s."
                      .formatted(
                          event.code().code().replace('-', ' '),
                          event.severity().code(),
                          event.serious() ? ", serious" : "",
                          event.onsetOn()));
        }
      }
    }
  }

  /**
   * What a clinician answered for is this event as bad as it was then: another of its kind, or the
   * same one grown worse, asks for an answer of its own.
   */
  private static Findings.Draft kept(Findings.Draft draft, int index, HarmEvent event) {
    return draft
        .keeping(event.code().code(), 1)
        .keeping("event", index + 1L)
        .keeping("severity", grade(event.severity()))
        .keeping("serious", event.serious() ? 1 : 0)
        .keeping("suspectedAppliance", event.suspectedAppliance() ? 1 : 0)
        .keeping("onsetEpochDay", event.onsetOn().toEpochDay());
  }

  private static int grade(HarmEvent.Grade severity) {
    return switch (severity) {
      case MILD -> 1;
      case MODERATE -> 2;
      case SEVERE -> 3;
    };
  }
}
