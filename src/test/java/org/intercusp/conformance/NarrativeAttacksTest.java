package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.intercusp.conformance.GuardDocuments.GUARD;
import static org.intercusp.conformance.GuardDocuments.json;
import static org.intercusp.conformance.GuardDocuments.narrativeJson;
import static org.intercusp.conformance.GuardDocuments.narrativeXml;
import static org.intercusp.conformance.GuardDocuments.refused;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a narrative must not carry, in both forms. */
@Tag("steady")
class NarrativeAttacksTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "<p onclick=\"alert(1)\">a</p>",
        "<a href=\"javascript:alert(1)\">a</a>",
        "<a href=\" JavaScript:alert(1)\">a</a>",
        "<img src=\"data:image/svg+xml;base64,AAAA\"/>",
        "<iframe src=\"http://a.example\"/>",
        "<form><input/></form>",
        "<p style=\"background:url(http://a.example/x.png)\">a</p>",
        "<p style=\"width:e\\78pression(alert(1))\">a</p>",
        "<p style=\"width:Expression (alert(1))\">a</p>",
        "<p style=\"@import 'http://a.example/x.css'\">a</p>",
        "<p style=\"behavior: #default#time2\">a</p>",
        "<p style=\"-moz-binding: none\">a</p>",
        "<a href=\"data:image/png;base64,AAAA\">a</a>",
        "<svg xmlns=\"http://www.w3.org/2000/svg\"/>",
        "<?php a ?>"
      })
  void refusesInANarrative(String inner) {
    assertThat(refused(narrativeJson(inner), Format.JSON).rule())
        .isEqualTo(GuardRule.NARRATIVE.code());
    assertThat(refused(narrativeXml(inner), Format.XML).rule())
        .isEqualTo(GuardRule.NARRATIVE.code());
  }

  @Test
  void refusesNestingAndEntitiesInANarrative() {
    String deep = "<div>".repeat(20_000) + "</div>".repeat(20_000);
    for (String inner : new String[] {deep, "&nbsp;"}) {
      assertThat(refused(narrativeJson(inner), Format.JSON).rule())
          .isEqualTo(GuardRule.NARRATIVE.code());
      Cost.mustBeBounded(() -> GUARD.admit(narrativeJson(inner).getBytes(UTF_8), Format.JSON));
    }
    assertThat(refused(narrativeXml(deep), Format.XML).rule())
        .isEqualTo(GuardRule.NARRATIVE.code());
    assertThat(refused(narrativeJson("</div><div>"), Format.JSON).rule())
        .isEqualTo(GuardRule.NARRATIVE.code());
    String doctype =
        "\"text\":{\"div\":\"<!DOCTYPE div [<!ENTITY a 'b'>]><div xmlns='http://www.w3.org/1999/xhtml'>&a;</div>\"}";
    assertThat(refused(json(doctype), Format.JSON).rule()).isEqualTo(GuardRule.NARRATIVE.code());
  }
}
