package org.intercusp.rules.diagnosis;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.JointSign;

/** Treatment does not begin on a painful, locking or stiff joint. */
final class DiagnosisJoint implements Rule {

  static final String CODE = "diagnosis-joint";
  private static final Set<JointSign> HARM =
      EnumSet.of(JointSign.PAIN, JointSign.LOCKING, JointSign.LIMITED_OPENING);

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR, Severity.WARNING)
        .compares("the joint signs found before treatment")
        .limit(
            "no pain in front of the ear, locking or limited opening (a count of signs: 0); looked"
                + " for before an appliance is ordered")
        .about(
            "/diagnosis/jointSigns/* or /diagnosis",
            "Bundle.entry.resource.ofType(Observation).where(code.coding.code = 'joint-signs')")
        .remedy("Examine and treat the joint first, or record why treatment goes on.")
        .samples(
            Sample.failing(
                "/diagnosis/jointSigns/1", "{\"/diagnosis/jointSigns\": [\"click\", \"locking\"]}"),
            Sample.passing("{\"/diagnosis/jointSigns\": [\"click\", \"crepitus\"]}"));
  }

  @Override
  public void check(Case about, Findings found) {
    List<JointSign> signs = about.treatment().diagnosis().jointSigns();
    if (signs == null) {
      unexamined(about, found);
      return;
    }
    for (int i = 0; i < signs.size(); i++) {
      if (HARM.contains(signs.get(i))) {
        found
            .error(Pointer.of("diagnosis", "jointSigns", i), about.treatment().id())
            .value(signs.get(i).code())
            .limit("none")
            .keeping(signs.get(i).code(), 1)
            .says("Before treatment there is a joint sign: %s.".formatted(signs.get(i).code()));
      }
    }
  }

  /** A joint nobody looked at is not a healthy one; before an order there is time to look. */
  private static void unexamined(Case about, Findings found) {
    if (!about.treatment().appliances().isEmpty()) {
      found
          .warning(Pointer.of("diagnosis"), about.treatment().id())
          .value("joint signs not recorded")
          .limit("joints examined")
          .remedy("Examine the joints and record what was found, also that there is nothing.")
          .says("An appliance is ordered, and nobody recorded whether there are joint signs.");
    }
  }
}
