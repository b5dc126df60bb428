package org.intercusp.conformance;

/** Documents that somebody would send to break a reader. */
final class Hostile {

  private Hostile() {}

  static String json(String members) {
    return "{\"resourceType\":\"Observation\"," + members + "}";
  }

  static String xml(String elements) {
    return "<Observation xmlns=\"http://hl7.org/fhir\">" + elements + "</Observation>";
  }

  static String narrativeJson(String inner) {
    String div = "<div xmlns=\"http://www.w3.org/1999/xhtml\">" + inner + "</div>";
    String written = div.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n");
    return json("\"text\":{\"status\":\"generated\",\"div\":\"" + written + "\"}");
  }

  static String narrativeXml(String inner) {
    return xml(
        "<text><status value=\"generated\"/><div xmlns=\"http://www.w3.org/1999/xhtml\">"
            + inner
            + "</div></text>");
  }

  static String manyLists() {
    StringBuilder lists = new StringBuilder("\"z\":1");
    for (int i = 0; i < 120; i++) {
      lists.append(",\"a").append(i).append("\":[").append("1,".repeat(3_900)).append("1]");
    }
    return lists.toString();
  }

  static String ringJson(int entries) {
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

  static String ringXml(int entries) {
    StringBuilder all = new StringBuilder();
    for (int i = 0; i < entries; i++) {
      all.append(
          "<entry><fullUrl value=\"http://a.example/O/%d\"/><resource><Observation><hasMember><reference value=\"O/%d\"/></hasMember></Observation></resource></entry>"
              .formatted(i, (i + 1) % entries));
    }
    return "<Bundle xmlns=\"http://hl7.org/fhir\">" + all + "</Bundle>";
  }
}
