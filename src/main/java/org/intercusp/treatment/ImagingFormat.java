package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.AMOUNT;
import static org.intercusp.treatment.Measures.ARCH_LENGTH;
import static org.intercusp.treatment.Measures.ARCH_WIDTH;
import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.FLAG;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.TOOTH;
import static org.intercusp.treatment.Measures.TOOTH_WIDTH;
import static org.intercusp.treatment.Measures.arches;
import static org.intercusp.treatment.Measures.code;

import java.util.List;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.shape.Choice;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Keyed;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Pair;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;
import org.jspecify.annotations.Nullable;

/** Films and study models as the treatment file writes them. */
final class ImagingFormat {

  private static final Shape<Point> POINT =
      new Pair<>(Numbers.decimal("-400", "400"), Point::new, Point::x, Point::y);

  private static final Shape<BodyShape> BODY = code(BodyShape.values());

  private static final Shape<Vertebrae> VERTEBRAE =
      Fields.of(Vertebrae.class)
          .required("c2Concave", FLAG)
          .required("c3Concave", FLAG)
          .required("c4Concave", FLAG)
          .required("c3Shape", BODY)
          .required("c4Shape", BODY)
          .defined()
          .build();

  static final Shape<Film> FILM =
      Fields.of(Film.class)
          .required("id", Words.idIn("films"))
          .required("takenOn", DATE)
          .required("jaw", code(JawPosition.values()))
          .optional("magnification", Numbers.decimal("0", "100"))
          .required("landmarks", new Keyed<>(code(Landmark.values()), POINT, 20))
          .optional("gonion", code(Gonion.values()))
          .optional("tracer", TEXT)
          .optional("repeatOf", Words.referenceTo("films"))
          .optional("vertebrae", VERTEBRAE)
          .defined()
          .build();

  private static final Shape<Contact> CONTACT =
      new Choice<Length, Contact>(
          AMOUNT,
          Contact.Displaced::new,
          ImagingFormat::displacement,
          "impacted",
          new Contact.Impacted(),
          new Contact.Unmeasured());

  private static final Shape<List<Contact>> FIVE = Items.exactly(5, CONTACT);

  static final Shape<Contacts> CONTACTS =
      Fields.of(Contacts.class).required("upper", FIVE).required("lower", FIVE).defined().build();

  static final Shape<StudyModel> MODEL =
      Fields.of(StudyModel.class)
          .required("id", Words.idIn("models"))
          .required("takenOn", DATE)
          .required("source", code(ModelSource.values()))
          .required("toothWidths", new Keyed<>(TOOTH, TOOTH_WIDTH, 52))
          .optional("available", arches(ARCH_LENGTH))
          .optional("contacts", CONTACTS)
          .optional("intermolarWidth", arches(ARCH_WIDTH))
          .optional("examiner", TEXT)
          .optional("repeatOf", Words.referenceTo("models"))
          .defined()
          .build();

  private ImagingFormat() {}

  private static @Nullable Length displacement(Contact contact) {
    return contact instanceof Contact.Displaced displaced ? displaced.by() : null;
  }
}
