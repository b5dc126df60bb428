package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.CodeType;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Composition.SectionComponent;
import org.hl7.fhir.r4.model.Type;

/** Repair: {@code Composition.section.mode}, which R5 no longer has. */
final class SectionMode implements Repair<Composition, org.hl7.fhir.r5.model.Composition> {

  private static final String PATH = "Composition.section.mode";

  private final Carried carried;

  SectionMode(Carried carried) {
    this.carried = carried;
  }

  @Override
  public Class<Composition> four() {
    return Composition.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Composition> five() {
    return org.hl7.fhir.r5.model.Composition.class;
  }

  @Override
  public void up(Composition from, org.hl7.fhir.r5.model.Composition made) {
    for (int i = 0; i < from.getSection().size(); i++) {
      SectionComponent section = from.getSection().get(i);
      if (section.hasMode()) {
        carried.up(PATH, new CodeType(section.getMode().toCode()), made.getSection().get(i));
      }
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Composition from, Composition made) {
    for (SectionComponent section : made.getSection()) {
      for (Type mode : carried.down(PATH, section.getExtension())) {
        section.setMode(Composition.SectionMode.fromCode(mode.primitiveValue()));
      }
    }
  }
}
