package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.intercusp.conformance.GuardDocuments.GUARD;
import static org.intercusp.conformance.GuardDocuments.admitted;
import static org.intercusp.conformance.GuardDocuments.json;
import static org.intercusp.conformance.GuardDocuments.narrativeJson;
import static org.intercusp.conformance.GuardDocuments.narrativeXml;
import static org.intercusp.conformance.GuardDocuments.refused;
import static org.intercusp.conformance.GuardDocuments.ringXml;
import static org.intercusp.conformance.GuardDocuments.xml;

import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@Tag("steady")
class GuardTest {

  @Test
  void admitsAnOrdinaryResourceInBothForms() {
    admitted(
        json(
            "\"valueQuantity\":{\"value\":9.5e0,\"code\":\"mm\"},\"note\":[{\"text\":\"\uD83D\uDE00 ok\"}]"),
        Format.JSON);
    admitted(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?><!-- by hand -->"
            + xml("<valueQuantity><value value=\"9.5\"/></valueQuantity>"),
        Format.XML);
    admitted(narrativeJson("<p class=\"a\">9 mm<br/><a href=\"#top\">up</a></p>"), Format.JSON);
    admitted(
        narrativeXml("<table><tbody><tr><td colspan=\"2\">9 mm</td></tr></tbody></table>"),
        Format.XML);
    admitted(narrativeXml("<img alt=\"dot\" src=\"data:image/png;base64,AAAA\"/>"), Format.XML);
  }

  @Test
  void aLotNumberThatLooksLikeAPowerIsALotNumber() {
    admitted(
        "{\"resourceType\":\"Device\",\"lotNumber\":\"24E10233\",\"identifier\":[{\"value\":\"24E10233\"}]}",
        Format.JSON);
    admitted(
        "<Device xmlns=\"http://hl7.org/fhir\"><identifier><value value=\"24E10233\"/></identifier><lotNumber value=\"24E10233\"/></Device>",
        Format.XML);
  }

  private static String manyLists() {
    StringBuilder lists = new StringBuilder("\"z\":1");
    for (int i = 0; i < 120; i++) {
      lists.append(",\"a").append(i).append("\":[").append("1,".repeat(3_900)).append("1]");
    }
    return lists.toString();
  }

  static String manyMembers(int count, String each) {
    StringBuilder members = new StringBuilder();
    for (int i = 0; i < count; i++) {
      members.append(each.formatted(i));
    }
    return members.toString();
  }

  @Test
  void theWidestTypeAndItsExtensionsPass() {
    admitted(json("\"z\":1" + manyMembers(198, ",\"a%d\":1")), Format.JSON);
    admitted(xml(manyMembers(200, "<a%d value=\"1\"/>")), Format.XML);
  }

  @Test
  void asMuchAsALimitSaysIsTaken() {
    String wide = "[" + "{},".repeat(GuardLimits.DEFAULT.contained() - 1) + "{}]";
    admitted(json("\"contained\":" + wide), Format.JSON);
    admitted(xml("<contained/>".repeat(GuardLimits.DEFAULT.contained())), Format.XML);
    int lists = GuardLimits.DEFAULT.depth() - 1;
    admitted(json("\"a\":" + "[".repeat(lists) + "]".repeat(lists)), Format.JSON);
    String small = json("\"a\":1");
    String whole = small + " ".repeat(GuardLimits.DEFAULT.bytes() - small.length());
    admitted(whole, Format.JSON);
    assertThat(refused(whole + " ", Format.JSON).rule()).isEqualTo(GuardRule.SIZE.code());
    // Profiles are few where a resource claims them; elsewhere the name is any other.
    String many = "\"http://a/b\",".repeat(GuardLimits.DEFAULT.profiles()) + "\"http://a/b\"";
    admitted(json("\"rest\":{\"profile\":[" + many + "]}"), Format.JSON);
    assertThat(refused(json("\"meta\":{\"profile\":[" + many + "]}"), Format.JSON).rule())
        .isEqualTo(GuardRule.PROFILES.code());
  }

  private static String ringJson(int entries) {
    StringBuilder all = new StringBuilder();
    for (int i = 0; i < entries; i++) {
      all.append(i == 0 ? "" : ",")
          .append(
              "{\"fullUrl\":\"urn:x:%d\",\"resource\":{\"resourceType\":\"Observation\""
                  .formatted(i))
          .append(",\"hasMember\":[{\"reference\":\"urn:x:%d\"}]}}".formatted((i + 1) % entries));
    }
    return "{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[" + all + "]}";
  }

  @Test
  void aHubThatEverythingRefersToIsNoChain() {
    String spoke =
        ",{\"fullUrl\":\"urn:x:%d\",\"resource\":{\"resourceType\":\"Observation\",\"focus\":[{\"reference\":\"urn:x:0\"}]}}";
    StringBuilder entries =
        new StringBuilder(
            "{\"fullUrl\":\"urn:x:0\",\"resource\":{\"resourceType\":\"Observation\",\"hasMember\":[");
    for (int i = 1; i < 600; i++) {
      entries.append(i == 1 ? "" : ",").append("{\"reference\":\"urn:x:%d\"}".formatted(i));
    }
    entries.append("]}}");
    for (int i = 1; i < 600; i++) {
      entries.append(spoke.formatted(i));
    }
    admitted("{\"resourceType\":\"Bundle\",\"entry\":[" + entries + "]}", Format.JSON);
    admitted(ringJson(100), Format.JSON);
    admitted(ringXml(100), Format.XML);
  }

  static Stream<Arguments> attacksInJson() {
    String deep = "[".repeat(5_000) + "]".repeat(5_000);
    return Stream.of(
        Arguments.of(GuardRule.DEPTH, json("\"a\":" + deep)),
        Arguments.of(GuardRule.DEPTH, json("\"a\":" + "{\"a\":".repeat(70) + "1" + "}".repeat(70))),
        Arguments.of(GuardRule.TOKENS, json(manyLists())),
        Arguments.of(GuardRule.TEXT_LENGTH, json("\"note\":\"" + "a".repeat(300_000) + "\"")),
        Arguments.of(GuardRule.NAME_LENGTH, json("\"" + "a".repeat(200) + "\":1")),
        Arguments.of(GuardRule.NUMBER_LENGTH, json("\"value\":" + "9".repeat(1_000_000))),
        Arguments.of(
            GuardRule.NUMBER_LENGTH, json("\"valueDecimal\":\"" + "9".repeat(200_000) + "\"")),
        Arguments.of(GuardRule.EXPONENT, json("\"valueQuantity\":{\"value\":1e1000000}")),
        Arguments.of(GuardRule.EXPONENT, json("\"valueQuantity\":{\"value\":-1.5E-1000000}")),
        Arguments.of(GuardRule.EXPONENT, json("\"valueQuantity\":{\"value\":\"1e1000000\"}")),
        Arguments.of(
            GuardRule.EXPONENT, json("\"valueQuantity\":{\"value\":1e99999999999999999999}")),
        Arguments.of(GuardRule.ITEMS, json("\"a\":[" + "1,".repeat(5_000) + "1]")),
        Arguments.of(GuardRule.MEMBERS, json("\"z\":1" + manyMembers(110_000, ",\"a%d\":1"))),
        Arguments.of(
            GuardRule.MEMBERS,
            json("\"c\":[{\"d\":{\"z\":1" + manyMembers(200, ",\"a%d\":1") + "}}]")),
        Arguments.of(
            GuardRule.ENTRIES,
            "{\"resourceType\":\"Bundle\",\"entry\":[" + "{},".repeat(2_000) + "{}]}"),
        Arguments.of(
            GuardRule.RESOURCES,
            json("\"a\":[" + "{\"resourceType\":\"A\"},".repeat(2_000) + "1]")),
        Arguments.of(GuardRule.CHAIN, ringJson(999)),
        Arguments.of(GuardRule.CONTAINED, json("\"contained\":[" + "{},".repeat(200) + "{}]")),
        Arguments.of(
            GuardRule.PROFILES,
            json("\"meta\":{\"profile\":[" + "\"http://a/b\",".repeat(3_000) + "\"c\"]}")),
        Arguments.of(GuardRule.CHARACTER, json("\"note\":\"a\\u0000b\"")),
        Arguments.of(GuardRule.CHARACTER, json("\"note\":\"a\\ud800b\"")),
        Arguments.of(GuardRule.CHARACTER, json("\"note\":\"a\\udc00\\ud800\"")),
        Arguments.of(GuardRule.CHARACTER, json("\"a\\u0001\":1")),
        Arguments.of(GuardRule.DUPLICATE_MEMBER, json("\"status\":\"final\",\"status\":\"draft\"")),
        Arguments.of(GuardRule.DUPLICATE_MEMBER, json("\"a\":{\"b\":1,\"\\u0062\":2}")),
        Arguments.of(GuardRule.TRAILING, json("\"a\":1") + json("\"a\":1")),
        Arguments.of(GuardRule.TRAILING, json("\"a\":1") + " }"),
        Arguments.of(GuardRule.SYNTAX, "{'resourceType':'Observation'}"),
        Arguments.of(GuardRule.SYNTAX, json("/* a */ \"a\":1")),
        Arguments.of(GuardRule.SYNTAX, json("\"value\":NaN")),
        Arguments.of(GuardRule.SYNTAX, json("\"value\":007")),
        Arguments.of(GuardRule.SYNTAX, json("\"a\":[1,2")),
        Arguments.of(GuardRule.SYNTAX, json("\"a\":\"b\u0000c\"")),
        Arguments.of(GuardRule.NO_RESOURCE, "[]"),
        Arguments.of(GuardRule.NO_RESOURCE, "{}"),
        Arguments.of(GuardRule.NO_RESOURCE, ""),
        Arguments.of(GuardRule.ENCODING, "\uFEFF" + json("\"a\":1")));
  }

  @ParameterizedTest
  @MethodSource("attacksInJson")
  void refusesInJson(GuardRule rule, String document) {
    Issue issue = refused(document, Format.JSON);

    assertThat(issue.rule()).isEqualTo(rule.code());
    assertThat(issue.weight()).isEqualTo(Weight.FATAL);
    assertThat(issue.line()).isPositive();
    assertThat(issue.column()).isPositive();
    Cost.mustBeBounded(() -> GUARD.admit(document.getBytes(UTF_8), Format.JSON));
  }

  @Test
  void refusesWhatIsNotUtf8WithItsPlace() {
    byte[] latin =
        json("\n\"note\":\"caf\u00e9\"").getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
    Issue issue = refused(latin, Format.JSON);
    assertThat(issue.rule()).isEqualTo(GuardRule.ENCODING.code());
    assertThat(issue.line()).isEqualTo(2);
    assertThat(issue.column()).isEqualTo(12);

    byte[] surrogate = {'{', '"', (byte) 0xED, (byte) 0xA0, (byte) 0x80, '"', '}'};
    assertThat(refused(surrogate, Format.JSON).rule()).isEqualTo(GuardRule.ENCODING.code());
    byte[] cut = {'{', '"', (byte) 0xE2, (byte) 0x82};
    assertThat(refused(cut, Format.JSON).rule()).isEqualTo(GuardRule.ENCODING.code());
    assertThat(refused(new byte[] {(byte) 0xC0, (byte) 0x80}, Format.XML).rule())
        .isEqualTo(GuardRule.ENCODING.code());
  }

  @Test
  void refusesWhatIsTooLarge() {
    byte[] large = new byte[5 * 1024 * 1024];
    assertThat(refused(large, Format.JSON).rule()).isEqualTo(GuardRule.SIZE.code());
    assertThat(refused(large, Format.XML).rule()).isEqualTo(GuardRule.SIZE.code());
  }

  @Test
  void namesTheElementLineAndColumn() {
    Issue inJson =
        refused(
            "{\"resourceType\":\"Bundle\",\"entry\":[{},{\"resource\":\n {\"valueQuantity\":{\"value\":1e999}}}]}",
            Format.JSON);
    assertThat(inJson.expression()).isEqualTo("entry[1].resource.value.value");
    assertThat(inJson.value()).isEqualTo("1e999");
    assertThat(inJson.line()).isEqualTo(2);
    assertThat(inJson.column()).isEqualTo(28);

    Issue inXml =
        refused(
            "<Bundle xmlns=\"http://hl7.org/fhir\"><entry/><entry><resource><Observation>\n"
                + "<valueQuantity><value value=\"1e999\"/></valueQuantity></Observation></resource></entry></Bundle>",
            Format.XML);
    assertThat(inXml.expression()).isEqualTo("Bundle.entry[1].resource[0].value[0].value[0]");
    assertThat(inXml.line()).isEqualTo(2);
    assertThat(inXml.column()).isEqualTo(16);
  }

  @Test
  void theWorstAdmissibleDocumentStaysWithinTheBound() {
    String item = "{\"a\":\"" + "b".repeat(60) + "\",\"c\":[1.5,2]},";
    String list = "\"l%d\":[" + item.repeat(2_000) + "{}]";
    StringBuilder members = new StringBuilder("\"x\":1");
    for (int i = 0; i < 13; i++) {
      members.append(',').append(list.formatted(i));
    }
    String document = json(members.toString());
    assertThat(document.length()).isGreaterThan(2_000_000);
    admitted(document, Format.JSON);
    Cost.mustBeBounded(() -> GUARD.admit(document.getBytes(UTF_8), Format.JSON));
  }

  @Test
  void costGrowsNoFasterThanSize() {
    byte[] small = json("\"a\":[" + "[\"abcdefgh\",1.5],".repeat(900) + "1]").getBytes(UTF_8);
    StringBuilder many = new StringBuilder("\"z\":1");
    for (int i = 0; i < 16; i++) {
      many.append(",\"a")
          .append(i)
          .append("\":[")
          .append("[\"abcdefgh\",1.5],".repeat(900))
          .append("1]");
    }
    byte[] sixteenfold = json(many.toString()).getBytes(UTF_8);
    long one = Cost.ofRepeated(() -> GUARD.admit(small, Format.JSON)).toNanos();
    long sixteen = Cost.ofRepeated(() -> GUARD.admit(sixteenfold, Format.JSON)).toNanos();
    assertThat(sixteen).isLessThan(one * 16 * 4);
  }
}
