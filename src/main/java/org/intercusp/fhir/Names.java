package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.HumanName;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Reference;
import tools.jackson.databind.node.JsonNodeFactory;

/** Names and identifiers of people and organisations, as file members. */
final class Names {

  private Names() {}

  static HumanName toFhir(String family, List<String> given) {
    HumanName name = new HumanName().setUse(HumanName.NameUse.OFFICIAL).setFamily(family);
    given.forEach(name::addGiven);
    return name;
  }

  static void fromFhir(List<HumanName> names, Draft draft, String path) {
    draft.array("given");
    draft.put("family", (String) null, path + ".name");
    if (names.isEmpty()) {
      return;
    }
    HumanName name =
        names.stream()
            .filter(n -> n.getUse() == HumanName.NameUse.OFFICIAL)
            .findFirst()
            .orElse(names.get(0));
    String at = path + ".name[" + names.indexOf(name) + "]";
    draft.put("family", name.getFamily(), at + ".family");
    name.getGiven()
        .forEach(
            given -> draft.add("given", JsonNodeFactory.instance.stringNode(given.getValue()), at));
  }

  /**
   * Puts the identifier that a reference names its target by; else the target's first. A server
   * that knew the target already may have put numbers of its own in front.
   */
  static void identifier(
      Reference reference, String referencePath, List<Identifier> own, Draft draft, String path) {
    if (reference.hasIdentifier()) {
      identifier(reference.getIdentifier(), draft, referencePath + ".identifier");
    } else {
      identifier(own, draft, path);
    }
  }

  static void identifier(List<Identifier> identifiers, Draft draft, String path) {
    draft.put("identifier", (String) null, path + ".identifier");
    if (!identifiers.isEmpty()) {
      identifier(identifiers.get(0), draft, path + ".identifier[0]");
    }
  }

  static void identifier(Identifier identifier, Draft draft, String path) {
    Draft object = draft.object("identifier", path);
    object.put("system", identifier.getSystem(), path + ".system");
    object.put("value", identifier.getValue(), path + ".value");
  }

  /** A reference that also names its target by its identifier. */
  static Reference named(String type, org.intercusp.treatment.Identifier identifier) {
    return logical(identifier).setReference(Identity.urn(type, identifier));
  }

  /** A person who is only named: an identifier without a resource. */
  static Reference logical(org.intercusp.treatment.Identifier identifier) {
    return new Reference().setIdentifier((Identifier) Writing.fhir(identifier));
  }
}
