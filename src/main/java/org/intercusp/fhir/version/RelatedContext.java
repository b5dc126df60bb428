package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.DocumentReference;
import org.hl7.fhir.r4.model.Reference;

/**
 * Repair: {@code DocumentReference.context.related}, which R5 has not: a document there relates to
 * documents only, ours to the appliance it is the statement of.
 */
final class RelatedContext
    implements Repair<DocumentReference, org.hl7.fhir.r5.model.DocumentReference> {

  private static final String PATH = "DocumentReference.context.related";

  private final Carried carried;

  RelatedContext(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<DocumentReference> four() {
    return DocumentReference.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.DocumentReference> five() {
    return org.hl7.fhir.r5.model.DocumentReference.class;
  }

  @Override
  public void up(DocumentReference from, org.hl7.fhir.r5.model.DocumentReference made) {
    from.getContext().getRelated().forEach(related -> carried.up(PATH, related, made));
  }

  @Override
  public void down(org.hl7.fhir.r5.model.DocumentReference from, DocumentReference made) {
    carried
        .down(PATH, made.getExtension())
        .forEach(related -> made.getContext().addRelated((Reference) related));
  }
}
