package org.intercusp.scenario;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.Contacts.Contact;

/** Displacements of the anterior contacts of an invented mouth. */
final class Crowding {

  private final Draw draw;

  Crowding(Draw draw) {
    this.draw = draw;
  }

  /**
   * Contacts of both arches.
   *
   * @param left share of the irregularity that is still there
   */
  Contacts contacts(Mouth mouth, double left) {
    return new Contacts(
        arch(mouth.upperCrowding * left, left), arch(mouth.lowerCrowding * left, left));
  }

  private List<Contact> arch(double crowding, double left) {
    List<Contact> contacts = new ArrayList<>();
    double mean = Math.max(0.2, crowding / 4) * Math.max(0.3, left);
    for (int i = 0; i < 5; i++) {
      if (draw.chance(0.01)) {
        contacts.add(draw.chance(0.5) ? new Contact.Unmeasured() : new Contact.Impacted());
      } else {
        contacts.add(new Contact.Displaced(Draw.tenth(draw.normal(mean, mean, 0, 9))));
      }
    }
    return contacts;
  }
}
