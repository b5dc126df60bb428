package org.intercusp.rules.appliance;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance.Clasp;

/** Clasps sit on teeth that are there, one kind on each. */
final class ApplianceClaspTooth implements Rule {

  static final String CODE = "appliance-clasp-tooth";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the teeth of the clasps with the teeth present, and the kinds on one tooth")
        .limit("a clasp's tooth is present and carries one kind of clasp (a count)")
        .about("/appliances/*/clasps/*/tooth", ApplianceAt.property("clasp"))
        .remedy("Move the clasp to a tooth that is present, or correct the list of teeth.")
        .samples(
            Sample.failing(
                "/appliances/0/clasps/3/tooth", "{\"/appliances/0/clasps/3/tooth\": \"37\"}"),
            Sample.passing("{\"/appliances/0/clasps/3/tooth\": \"36\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    for (ApplianceAt at : ApplianceAt.all(about)) {
      Set<Tooth> present = Set.copyOf(about.teethFor(at.appliance()));
      List<Clasp> clasps = at.appliance().clasps();
      Map<Tooth, Clasp.Kind> kinds = new TreeMap<>();
      for (int i = 0; i < clasps.size(); i++) {
        Clasp clasp = clasps.get(i);
        Clasp.Kind before = kinds.putIfAbsent(clasp.tooth(), clasp.kind());
        if (!present.contains(clasp.tooth())) {
          report(at, i, clasp, found)
              .limit("a tooth that is present")
              .says("A clasp is prescribed on %s, which is not present.".formatted(clasp.tooth()));
        } else if (before != null && before != clasp.kind()) {
          report(at, i, clasp, found)
              .limit("one kind of clasp")
              .keeping("kinds", 2)
              .says(
                  "%s carries two kinds of clasp: %s and %s."
                      .formatted(clasp.tooth(), before.code(), clasp.kind().code()));
        }
      }
    }
  }

  private static Findings.Draft report(ApplianceAt at, int index, Clasp clasp, Findings found) {
    return found
        .error(at.at("clasps", index, "tooth"), at.id())
        .value(clasp.tooth().code())
        .keeping("tooth", Integer.parseInt(clasp.tooth().code()));
  }
}
