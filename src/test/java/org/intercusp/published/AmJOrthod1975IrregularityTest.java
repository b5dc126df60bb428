package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.analysis.model.Irregularity;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Contacts.Contact;
import org.junit.jupiter.api.Test;

/** Irregularity of the lower incisors, Am J Orthod 1975;68:554-563: five contacts added. Exact. */
class AmJOrthod1975IrregularityTest {

  private static final List<Contact> CONTACTS =
      Stream.of("0.8", "1.4", "0.0", "2.1", "0.9")
          .<Contact>map(mm -> new Contact.Displaced(Length.of(mm)))
          .toList();

  @Test
  void fiveDisplacements() {
    assertThat(Irregularity.of(CONTACTS).result()).contains(Length.of("5.2"));
  }

  @Test
  void theSameInAMirror() {
    List<Contact> mirrored = new ArrayList<>(CONTACTS);
    Collections.reverse(mirrored);
    assertThat(Irregularity.of(mirrored)).isEqualTo(Irregularity.of(CONTACTS));
  }

  @Test
  void aContactThatWasNotMeasuredOrIsImpactedIsNamed() {
    List<Contact> lacking = new ArrayList<>(CONTACTS);
    lacking.set(3, new Contact.Unmeasured());
    assertThat(Irregularity.of(lacking).reason())
        .isEqualTo("contact 4 from the patient's right is not measured");
    lacking.set(1, new Contact.Impacted());
    assertThat(Irregularity.of(lacking).reason()).contains("contact 2", "impacted");
    assertThat(Irregularity.of(CONTACTS.subList(0, 4)).reason()).contains("five contacts");
  }
}
