package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.intercusp.treatment.Contacts.Contact;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/** The five contacts of an arch, a component each; one not measured says why it has no value. */
final class ContactsField<T> extends Field<T> {

  private final String member;
  private final String arch;
  private final List<Concept> codes;
  private final Panel.Getter<T, List<Contact>> getter;

  ContactsField(
      String member, String arch, List<Concept> codes, Panel.Getter<T, List<Contact>> getter) {
    this.member = member;
    this.arch = arch;
    this.codes = codes;
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    List<Contact> contacts = getter.of(element);
    if (contacts == null) {
      return false;
    }
    for (int i = 0; i < Math.min(codes.size(), contacts.size()); i++) {
      ObservationComponentComponent part = component(to, codes.get(i), canonicals);
      if (contacts.get(i) instanceof Contact.Unmeasured) {
        part.setDataAbsentReason(
            Codes.hl7Concept("data-absent-reason", "not-performed", "Not Performed"));
      } else {
        part.setValue(Kind.contact().out().apply(contacts.get(i), canonicals));
      }
    }
    return true;
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    if (codes.stream().allMatch(code -> found(from, code, reading).isEmpty())) {
      return;
    }
    Draft contacts = draft.object(member, reading.path(from));
    for (Concept code : codes) {
      JsonNode value = null;
      for (Found found : found(from, code, reading)) {
        value = reading.value(Kind.contact(), found.value(), found.path());
      }
      JsonNode unmeasured = JsonNodeFactory.instance.nullNode();
      contacts.array(arch).add(value == null ? unmeasured : value);
    }
  }
}
