package org.intercusp.fhir;

import java.nio.charset.StandardCharsets;
import org.hl7.fhir.r4.model.Attachment;
import org.hl7.fhir.r4.model.DocumentReference;
import org.hl7.fhir.r4.model.Enumerations.DocumentReferenceStatus;
import org.intercusp.treatment.Appliance;

/** The statement of a custom-made device as DocumentReference with its text. */
final class StatementMapper {

  private static final Concept TYPE = Codes.ours(LocalSystem.PROCEDURE, "custom-made-statement");

  void toFhir(Appliance appliance, Writing writing) {
    String statement = appliance.statement();
    if (statement == null) {
      return;
    }
    DocumentReference resource = new DocumentReference();
    resource.setStatus(DocumentReferenceStatus.CURRENT);
    resource.setType(TYPE.concept(writing.canonicals()));
    resource.setSubject(writing.patient());
    resource
        .addContent()
        .setAttachment(
            new Attachment()
                .setContentType("text/plain;charset=UTF-8")
                .setData(statement.getBytes(StandardCharsets.UTF_8)));
    resource.getContext().addRelated(writing.to("Device", Role.APPLIANCE, appliance.id()));
    writing.add(resource, Role.STATEMENT, appliance.id());
  }

  void fromFhir(DocumentReference resource, Draft appliance, Reading reading) {
    byte[] text = resource.getContentFirstRep().getAttachment().getData();
    if (text != null) {
      appliance.put(
          "statement",
          new String(text, StandardCharsets.UTF_8),
          reading.path(resource) + ".content[0].attachment.data");
    }
  }

  boolean isStatement(DocumentReference resource, Reading reading) {
    return reading.is(TYPE, resource.getType());
  }
}
