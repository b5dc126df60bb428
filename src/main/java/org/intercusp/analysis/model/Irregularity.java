package org.intercusp.analysis.model;

import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Contacts.Contact;

/**
 * Irregularity of the incisors: the five anterior contact displacements of an arch added, in
 * millimetres (Am J Orthod 1975;68:554-563, described for the lower arch).
 */
public final class Irregularity {

  public static final Source SOURCE = Source.published("Am J Orthod 1975;68:554-563");

  private Irregularity() {}

  /** Standard uncertainty in millimetres of five displacements read with such an error. */
  public static double uncertainty(ReadingError error) {
    return error.standardUncertainty() * Math.sqrt(5);
  }

  /** Absent when a contact was not measured or a tooth is impacted there. */
  public static Reckoned<Length> of(List<Contact> contacts) {
    if (contacts.size() != 5) {
      return Reckoned.lacking("five contacts are needed, " + contacts.size() + " are given");
    }
    Length sum = Length.ZERO;
    for (int i = 0; i < contacts.size(); i++) {
      Contact contact = contacts.get(i);
      if (contact instanceof Contact.Displaced displaced) {
        sum = sum.plus(displaced.by().absolute());
      } else {
        String why = contact instanceof Contact.Impacted ? "is impacted" : "is not measured";
        return Reckoned.lacking("contact " + (i + 1) + " from the patient's right " + why);
      }
    }
    return Reckoned.known(sum);
  }
}
