package org.intercusp.fhir.version;

import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.r4.model.Media;
import org.hl7.fhir.r4.model.Media.MediaStatus;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r5.model.Attachment;
import org.hl7.fhir.r5.model.CodeableConcept;
import org.hl7.fhir.r5.model.CodeableReference;
import org.hl7.fhir.r5.model.DataType;
import org.hl7.fhir.r5.model.DocumentReference;
import org.hl7.fhir.r5.model.DocumentReference.DocumentReferenceStatus;
import org.hl7.fhir.r5.model.Enumerations.CompositionStatus;
import org.hl7.fhir.r5.model.InstantType;
import org.hl7.fhir.r5.model.Reference;

/**
 * Repair: Media, a DocumentReference in R5, of which the converter makes an empty one. One way
 * only: a DocumentReference of R5 is read as a DocumentReference.
 */
final class Images implements Repair<Media, DocumentReference> {

  private final Carried carried;

  Images(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<Media> four() {
    return Media.class;
  }

  @Override
  public Class<DocumentReference> five() {
    return DocumentReference.class;
  }

  @Override
  public void up(Media from, DocumentReference made) {
    from.getIdentifier()
        .forEach(one -> made.addIdentifier((org.hl7.fhir.r5.model.Identifier) five(one)));
    made.setStatus(
        from.getStatus() == MediaStatus.ENTEREDINERROR
            ? DocumentReferenceStatus.ENTEREDINERROR
            : DocumentReferenceStatus.CURRENT);
    if (from.hasStatus()) {
      made.setDocStatus(state(from.getStatus()));
    }
    from.getBasedOn().forEach(one -> made.addBasedOn((Reference) five(one)));
    if (from.hasType()) {
      made.setType((CodeableConcept) five(from.getType()));
    }
    if (from.hasModality()) {
      made.addModality((CodeableConcept) five(from.getModality()));
    }
    if (from.hasSubject()) {
      made.setSubject((Reference) five(from.getSubject()));
    }
    if (from.hasEncounter()) {
      made.addContext((Reference) five(from.getEncounter()));
    }
    if (from.hasIssued()) {
      made.setDateElement((InstantType) five(from.getIssuedElement()));
    }
    if (from.hasOperator()) {
      made.addAuthor((Reference) five(from.getOperator()));
    }
    if (from.hasBodySite()) {
      made.addBodySite(new CodeableReference((CodeableConcept) five(from.getBodySite())));
    }
    made.addContent().setAttachment(content(from));
    carry(from, made);
  }

  private static Attachment content(Media from) {
    Attachment content =
        from.hasContent() ? (Attachment) five(from.getContent()) : new Attachment();
    if (from.hasHeight()) {
      content.setHeight(from.getHeight());
    }
    if (from.hasWidth()) {
      content.setWidth(from.getWidth());
    }
    if (from.hasFrames()) {
      content.setFrames(from.getFrames());
    }
    if (from.hasDuration()) {
      content.setDuration(from.getDuration());
    }
    return content;
  }

  /** What R5 has no element for. */
  private void carry(Media from, DocumentReference made) {
    from.getPartOf().forEach(one -> carried.up("Media.partOf", one, made));
    from.getReasonCode().forEach(one -> carried.up("Media.reasonCode", one, made));
    from.getNote().forEach(one -> carried.up("Media.note", one, made));
    if (from.hasView()) {
      carried.up("Media.view", from.getView(), made);
    }
    if (from.hasCreated()) {
      carried.up("Media.created", from.getCreated(), made);
    }
    if (from.hasDeviceName()) {
      carried.up("Media.deviceName", from.getDeviceNameElement(), made);
    }
    if (from.hasDevice()) {
      carried.up("Media.device", from.getDevice(), made);
    }
  }

  private static CompositionStatus state(MediaStatus status) {
    return switch (status) {
      case PREPARATION, INPROGRESS, ONHOLD -> CompositionStatus.PRELIMINARY;
      case NOTDONE, STOPPED -> CompositionStatus.CANCELLED;
      case COMPLETED -> CompositionStatus.FINAL;
      case ENTEREDINERROR -> CompositionStatus.ENTEREDINERROR;
      case UNKNOWN, NULL -> CompositionStatus.UNKNOWN;
    };
  }

  private static DataType five(Type type) {
    return VersionConvertorFactory_40_50.convertType(type);
  }

  @Override
  public void down(DocumentReference from, Media made) {
    // The converter makes no Media of a DocumentReference.
  }
}
