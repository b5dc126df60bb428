package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import java.util.List;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.conformance.Admission;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.Issue;
import org.springframework.stereotype.Component;

/** Reads what somebody sends as a resource, behind the guard. */
@Component
class Documents {

  private final FhirContext context;
  private final Guard guard;
  private final Conformance conformance;

  Documents(FhirContext context, Guard guard, Conformance conformance) {
    this.conformance = conformance;
    this.context = context;
    this.guard = guard;
  }

  Resource read(Incoming incoming) {
    Admission admission = guard.admit(incoming.bytes(), incoming.format());
    if (admission instanceof Admission.Refused refused) {
      throw Fault.of(Reason.UNREADABLE, List.of(refused.issue()));
    }
    try {
      String text = ((Admission.Admitted) admission).text();
      return (Resource)
          (incoming.format() == Format.XML ? context.newXmlParser() : context.newJsonParser())
              .parseResource(text);
    } catch (DataFormatException e) {
      // The parser quotes what it reads and stops at the first fault; the validator does neither.
      List<Issue> issues =
          conformance.validate(incoming.bytes(), incoming.format()).stream()
              .filter(issue -> issue.weight().stops())
              .toList();
      throw issues.isEmpty()
          ? Fault.of(Reason.UNREADABLE, "The document is no FHIR R4 resource.")
          : Fault.of(Reason.UNREADABLE, issues);
    }
  }
}
