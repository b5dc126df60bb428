package org.intercusp.web.fhir;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Outcomes;
import org.intercusp.conformance.Weight;
import org.intercusp.finding.ShortText;

/**
 * Parameters that are not known where they were sent: refused with {@code Prefer: handling=strict},
 * else left aside and named in the answer (FHIR R4, RESTful Search, 3.1.1.3).
 */
final class LeftAside {

  /** As much of a name as is said back; common practice, no source. */
  static final int SHOWN = 60;

  private final boolean strict;
  private final String where;
  private final List<Issue> issues = new ArrayList<>();

  /**
   * @param where what the parameter is not one of, as in "that Patient is searched by"
   */
  LeftAside(Asked asked, String where) {
    this.strict = asked.strict();
    this.where = where;
  }

  void add(String name) {
    String text =
        "The parameter "
            + ShortText.cut(name, SHOWN)
            + " is not one "
            + where
            + "; see /fhir/metadata.";
    if (strict) {
      throw Fault.of(Reason.PARAMETER, text);
    }
    issues.add(Fault.issue(Reason.PARAMETER, Weight.WARNING, text));
  }

  /** Adds what is to be told of them to an answer, if there is anything. */
  Optional<BundleEntryComponent> tell(Bundle bundle, Outcomes outcomes) {
    if (issues.isEmpty()) {
      return Optional.empty();
    }
    // Nobody can read it anywhere, but an entry must say what it is (bdl-7), the same each time.
    String name = bundle.getLink("self").getUrl() + issues;
    UUID id = UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
    return Optional.of(
        bundle.addEntry().setFullUrl("urn:uuid:" + id).setResource(outcomes.of(issues)));
  }
}
