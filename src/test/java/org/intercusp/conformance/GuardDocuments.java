package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

/** Documents for the guard's tests, and what it says of them. */
final class GuardDocuments {

  static final Guard GUARD = new Guard(GuardLimits.DEFAULT);

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

  static Issue refused(String document, Format format) {
    return refused(document.getBytes(UTF_8), format);
  }

  static Issue refused(byte[] document, Format format) {
    Admission admission = GUARD.admit(document, format);
    assertThat(admission).isInstanceOf(Admission.Refused.class);
    return ((Admission.Refused) admission).issue();
  }

  static void admitted(String document, Format format) {
    assertThat(GUARD.admit(document.getBytes(UTF_8), format))
        .isEqualTo(new Admission.Admitted(document));
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

  private GuardDocuments() {}
}
