package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Procedure;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Trim;
import tools.jackson.databind.JsonNode;

/** Material taken off a block: a Procedure coded by the face, at arch, side and tooth. */
final class TrimMapper {

  private static final Kind<Trim.Face> FACE = Kind.coded(LocalSystem.TRIM_FACE);
  private static final Kind<Arch> ARCH = Kind.arch();
  private static final Kind<Side> SIDE = Kind.side();
  private static final Kind<Tooth> TOOTH = Kind.tooth();

  void toFhir(Review review, Writing writing) {
    Canonicals canonicals = writing.canonicals();
    for (int i = 0; i < review.trimmed().size(); i++) {
      Trim trim = review.trimmed().get(i);
      String ordinal = Integer.toString(i + 1);
      Procedure procedure = Deeds.procedure(review, Codes.TRIM, writing);
      CodeableConcept face = (CodeableConcept) FACE.out().apply(trim.face(), canonicals);
      procedure.getCode().addCoding(face.getCodingFirstRep());
      procedure.addBodySite((CodeableConcept) ARCH.out().apply(trim.arch(), canonicals));
      procedure.addBodySite((CodeableConcept) SIDE.out().apply(trim.side(), canonicals));
      Tooth tooth = trim.tooth();
      if (tooth != null) {
        procedure.addBodySite((CodeableConcept) TOOTH.out().apply(tooth, canonicals));
      }
      writing.add(procedure, Role.TRIM, review.id(), ordinal);
      Deeds.amount(
          review,
          trim.amount(),
          Codes.TRIM_AMOUNT,
          Role.TRIM,
          Role.TRIM_AMOUNT,
          writing,
          review.id(),
          ordinal);
    }
  }

  void fromFhir(Encounter visit, Draft review, Reading reading) {
    for (Procedure procedure : Deeds.at(visit, Codes.TRIM, reading)) {
      String path = reading.path(procedure);
      Draft trim = review.element("trimmed", path);
      trim.put("face", reading.value(FACE, procedure.getCode(), path + ".code"), path + ".code");
      for (int i = 0; i < procedure.getBodySite().size(); i++) {
        CodeableConcept site = procedure.getBodySite().get(i);
        String at = path + ".bodySite[" + i + "]";
        site("arch", ARCH, site, at, trim, reading);
        site("side", SIDE, site, at, trim, reading);
        site("tooth", TOOTH, site, at, trim, reading);
      }
      Deeds.amount(procedure, Codes.TRIM_AMOUNT, trim, reading);
    }
  }

  private static void site(
      String member, Kind<?> kind, CodeableConcept site, String at, Draft trim, Reading reading) {
    JsonNode value = kind.in().apply(site, reading.canonicals());
    if (value != null) {
      trim.put(member, value, at);
    }
  }
}
