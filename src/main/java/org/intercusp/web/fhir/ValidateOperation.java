package org.intercusp.web.fhir;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.r4.model.Parameters;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.conformance.Admission;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Guard;
import org.intercusp.conformance.Issue;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * {@code $validate}: the document itself, or a resource inside Parameters. What is judged is not
 * kept.
 */
@Component
class ValidateOperation {

  private static final Set<String> KNOWN = Set.of("profile", "mode");

  private final Conformance conformance;
  private final Guard guard;
  private final Documents documents;

  ValidateOperation(Conformance conformance, Guard guard, Documents documents) {
    this.conformance = conformance;
    this.guard = guard;
    this.documents = documents;
  }

  /** Every issue; one that cannot be read at all is a fault of the request. */
  List<Issue> judge(Incoming incoming, @Nullable String type, Asked asked) {
    Reading.mustKnow(asked, KNOWN);
    if (guard.admit(incoming.bytes(), incoming.format()) instanceof Admission.Refused refused) {
      throw Fault.of(Reason.UNREADABLE, List.of(refused.issue()));
    }
    Set<String> profiles = new LinkedHashSet<>(asked.params().getOrDefault("profile", List.of()));
    @Nullable Resource root = rootOf(incoming);
    if (root instanceof Parameters parameters && parameters.hasParameter("resource")) {
      Parameters.ParametersParameterComponent inside = parameters.getParameter("resource");
      parameters.getParameter().stream()
          .filter(one -> "profile".equals(one.getName()) && one.hasValue())
          .forEach(one -> profiles.add(one.getValue().primitiveValue()));
      root = inside.getResource();
      if (root == null) {
        throw Fault.of(Reason.UNREADABLE, "The parameter resource holds no resource.");
      }
      mustBe(type, root);
      return conformance.validate(documents.write(root), Format.JSON, profiles);
    }
    if (root != null) {
      mustBe(type, root);
    }
    return conformance.validate(incoming.bytes(), incoming.format(), profiles);
  }

  /** What the validator is to say of it, it says better than a parser that gives up. */
  private @Nullable Resource rootOf(Incoming incoming) {
    try {
      return documents.read(incoming);
    } catch (Fault unreadable) {
      return null;
    }
  }

  private static void mustBe(@Nullable String type, Resource root) {
    if (type != null && !type.equals(root.fhirType())) {
      throw Fault.of(
          Reason.UNREADABLE, "The path names a " + type + ", the body a " + root.fhirType() + ".");
    }
  }
}
