package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.rules.rule.Limits;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RuleViewTest {

  @ParameterizedTest
  @CsvSource({
    "bite-share-exceeded, share-of-path, 0.75,"
        + " share-of-path = 0.75 (set by the clinic); may be set from 0.50 to 0.80",
    "appliance-incline-range, incline-most, 80,"
        + " incline-most = 80° (set by the clinic); may be set from 80 to 90"
  })
  void aLimitStandsWithItsUnit(String rule, String limit, BigDecimal own, String words) {
    List<String> settable =
        RuleView.of(RuleCatalogue.rule(rule).orElseThrow(), Limits.named(Map.of(limit, own)))
            .settable();
    assertThat(settable).contains(words);
  }
}
