package org.intercusp.web.pages;

import org.intercusp.rules.RuleCatalogue;
import org.intercusp.rules.rule.Limits;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** The rule catalogue as a page, made from the rules themselves. */
@Controller
class RulePages {

  private final Limits limits;

  RulePages(Limits limits) {
    this.limits = limits;
  }

  @GetMapping(path = "/rules", produces = MediaType.TEXT_HTML_VALUE)
  String rules(Model model) {
    model.addAttribute(
        "rules", RuleCatalogue.rules().stream().map(rule -> RuleView.of(rule, limits)).toList());
    return "rules";
  }
}
