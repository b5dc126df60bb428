package org.intercusp.rules.appliance;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.intercusp.dentition.Shedding;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Appliance.Clasp;

/** Notes a clasp on a deciduous tooth that will soon be shed. */
final class ApplianceClaspDeciduous implements Rule {

  static final String CODE = "appliance-clasp-deciduous";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares("the patient's age with the age at which the clasped deciduous tooth is shed")
        .limit("at least one year before the usual age of shedding (years)", Limit.SHEDDING_NOTICE)
        .about("/appliances/*/clasps/*/tooth", ApplianceAt.property("clasp"))
        .remedy("Clasp a permanent tooth, or plan for the loss of this one.")
        .source(Source.memoryOf(Shedding.CITATION))
        .samples(
            Sample.failing(
                "/appliances/0/clasps/3/tooth",
                """
                {"/diagnosis/teethPresent/16": "75", "/appliances/0/clasps/3/tooth": "75"}"""),
            Sample.passing(
                """
                {"/diagnosis/teethPresent/16": "75", "/appliances/0/clasps/3/tooth": "75",
                 "/patient/birthDate": "2017-07-21"}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    LocalDate born = about.treatment().patient().birthDate();
    long months = ChronoUnit.MONTHS.between(born, about.day());
    BigDecimal age =
        BigDecimal.valueOf(months).divide(BigDecimal.valueOf(12), 2, RoundingMode.DOWN);
    for (ApplianceAt at : ApplianceAt.standing(about)) {
      List<Clasp> clasps = at.appliance().clasps();
      for (int i = 0; i < clasps.size(); i++) {
        Tooth tooth = clasps.get(i).tooth();
        if (!tooth.deciduous()) {
          continue;
        }
        BigDecimal from = Shedding.of(tooth).from();
        if (age.compareTo(from.subtract(about.limits().of(Limit.SHEDDING_NOTICE))) >= 0) {
          found
              .information(at.at("clasps", i, "tooth"), at.id())
              .value("age", age)
              .unit(Unit.YEAR)
              .limit(from)
              .keeping("tooth", Integer.parseInt(tooth.code()))
              .notingChange(Limit.SHEDDING_NOTICE)
              .says(
                  "The clasp on %s holds a tooth that is usually shed from %s years; the patient is %s."
                      .formatted(tooth, Shown.of(from), Shown.of(age)));
        }
      }
    }
  }
}
