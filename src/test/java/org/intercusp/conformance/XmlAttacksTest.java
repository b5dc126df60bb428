package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.intercusp.conformance.GuardDocuments.GUARD;
import static org.intercusp.conformance.GuardDocuments.refused;
import static org.intercusp.conformance.GuardDocuments.ringXml;
import static org.intercusp.conformance.GuardDocuments.xml;

import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Attacks written in XML, each refused by its own rule within the bound of cost. */
@Tag("steady")
class XmlAttacksTest {

  static Stream<Arguments> attacksInXml() {
    String bomb =
        "<!DOCTYPE a [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;\"><!ENTITY c \"&b;&b;&b;&b;&b;\">]>";
    return Stream.of(
        Arguments.of(GuardRule.DOCTYPE, bomb + xml("<status value=\"&c;\"/>")),
        Arguments.of(
            GuardRule.DOCTYPE,
            "<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>"
                + xml("<status value=\"a\"/>&x;")),
        Arguments.of(
            GuardRule.DOCTYPE, "<!DOCTYPE a SYSTEM \"http://127.0.0.1:1/a.dtd\">" + xml("")),
        Arguments.of(GuardRule.ENTITY, xml("<note><text value=\"a\"/>&x;</note>")),
        Arguments.of(GuardRule.INSTRUCTION, "<?xml-stylesheet href=\"a.xsl\"?>" + xml("")),
        Arguments.of(GuardRule.DEPTH, xml("<a>".repeat(20_000) + "</a>".repeat(20_000))),
        Arguments.of(
            GuardRule.TOKENS,
            xml(
                "<a><b/><b/><b/><b/><b/></a>".repeat(3_900)
                    + "<c><b/><b/><b/><b/><b/></c>".repeat(3_900)
                    + ("<d>" + "<b value=\"1\"/>".repeat(3_900) + "</d>").repeat(30))),
        Arguments.of(GuardRule.TEXT_LENGTH, xml("<note value=\"" + "a".repeat(300_000) + "\"/>")),
        Arguments.of(GuardRule.NAME_LENGTH, xml("<" + "a".repeat(200) + "/>")),
        Arguments.of(
            GuardRule.NUMBER_LENGTH,
            xml("<valueQuantity><value value=\"" + "9".repeat(200_000) + "\"/></valueQuantity>")),
        Arguments.of(
            GuardRule.EXPONENT, xml("<valueQuantity><value value=\"1e1000000\"/></valueQuantity>")),
        Arguments.of(GuardRule.ITEMS, xml("<a/>".repeat(5_000))),
        Arguments.of(GuardRule.MEMBERS, xml(GuardTest.manyMembers(80_000, "<a%d/>"))),
        Arguments.of(
            GuardRule.ENTRIES,
            "<Bundle xmlns=\"http://hl7.org/fhir\">" + "<entry/>".repeat(2_000) + "</Bundle>"),
        Arguments.of(GuardRule.RESOURCES, xml("<a><A/></a>".repeat(2_000))),
        Arguments.of(GuardRule.CHAIN, ringXml(999)),
        Arguments.of(GuardRule.CONTAINED, xml("<contained/>".repeat(200))),
        Arguments.of(
            GuardRule.PROFILES,
            xml("<meta>" + "<profile value=\"http://a/b\"/>".repeat(3_000) + "</meta>")),
        Arguments.of(GuardRule.CHARACTER, xml("<note value=\"\u0000\"/>")),
        Arguments.of(GuardRule.SYNTAX, xml("<note value=\"&#0;\"/>")),
        Arguments.of(GuardRule.SYNTAX, xml("<note value=\"&#xD800;\"/>")),
        Arguments.of(GuardRule.ENTITY, xml("<note value=\"&undefined;\"/>")),
        Arguments.of(GuardRule.SYNTAX, xml("<note value=\"a\" value=\"b\"/>")),
        Arguments.of(GuardRule.SYNTAX, xml("") + xml("")),
        Arguments.of(GuardRule.SYNTAX, xml("some text")),
        Arguments.of(GuardRule.SYNTAX, ""),
        Arguments.of(GuardRule.NAMESPACE, "<Observation/>"),
        Arguments.of(GuardRule.NAMESPACE, xml("<x:script xmlns:x=\"http://other.example\"/>")),
        Arguments.of(
            GuardRule.ENCODING, "<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?>" + xml("")));
  }

  @ParameterizedTest
  @MethodSource("attacksInXml")
  void refusesInXml(GuardRule rule, String document) {
    Issue issue = refused(document, Format.XML);

    assertThat(issue.rule()).isEqualTo(rule.code());
    assertThat(issue.line()).isPositive();
    assertThat(issue.column()).isPositive();
    Cost.mustBeBounded(() -> GUARD.admit(document.getBytes(UTF_8), Format.XML));
  }
}
