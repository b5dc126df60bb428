package org.intercusp.rules.diagnosis;

import java.util.Objects;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.Review;

/** Treatment begins in a healthy, clean mouth. */
final class DiagnosisCaries implements Rule {

  static final String CODE = "diagnosis-caries";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR, Severity.WARNING)
        .compares("active caries and hygiene at the diagnosis; hygiene as last seen at a review since")
        .limit(
            "no active caries (a count of conditions: 0), looked for before an appliance is ordered;"
                + " hygiene good or fair")
        .about("/diagnosis/* or /diagnosis", "Bundle.entry.resource.ofType(Condition)")
        .remedy("Treat caries first; teach and check hygiene before the appliance is ordered.")
        .samples(
            Sample.failing("/diagnosis/activeCaries", "{\"/diagnosis/activeCaries\": true}"),
            Sample.passing("{\"/diagnosis/hygiene\": \"fair\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Diagnosis diagnosis = about.treatment().diagnosis();
    String id = about.treatment().id();
    if (Boolean.TRUE.equals(diagnosis.activeCaries())) {
      found
          .error(Pointer.of("diagnosis", "activeCaries"), id)
          .value("active caries")
          .limit("none")
          .keeping("activeCaries", 1)
          .says("There is active caries before treatment.");
    }
    if (diagnosis.activeCaries() == null && !about.treatment().appliances().isEmpty()) {
      found
          .warning(Pointer.of("diagnosis"), id)
          .value("active caries not recorded")
          .limit("teeth examined")
          .remedy("Look for caries and record what was found, also that there is none.")
          .says("An appliance is ordered, and nobody recorded whether there is active caries.");
    }
    if (diagnosis.hygiene() == Hygiene.POOR && !cleanSince(about)) {
      found
          .warning(Pointer.of("diagnosis", "hygiene"), id)
          .value(Hygiene.POOR.code())
          .limit("good or fair")
          .says("Oral hygiene is poor before treatment.");
    }
  }

  /** Whether the last review that looked at hygiene found it good or fair. */
  private static boolean cleanSince(Case about) {
    return about.treatment().reviewsByDate().stream()
        .map(Review::hygiene)
        .filter(Objects::nonNull)
        .reduce((before, after) -> after)
        .filter(last -> last != Hygiene.POOR)
        .isPresent();
  }
}
