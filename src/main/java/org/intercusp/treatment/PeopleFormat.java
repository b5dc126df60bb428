package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.FLAG;
import static org.intercusp.treatment.Measures.MOUTH;
import static org.intercusp.treatment.Measures.SHARE;
import static org.intercusp.treatment.Measures.TEETH;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.arches;
import static org.intercusp.treatment.Measures.code;
import static org.intercusp.treatment.Measures.sides;

import java.util.List;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/** Clinic, people and diagnosis as the treatment file writes them. */
public final class PeopleFormat {

  public static final Shape<Identifier> IDENTIFIER =
      Fields.of(Identifier.class)
          .required("system", Words.uri())
          .required("value", TEXT)
          .defined()
          .build();

  static final Shape<Organisation> ORGANISATION =
      Fields.of(Organisation.class)
          .required("identifier", IDENTIFIER)
          .required("name", TEXT)
          .optional("contact", TEXT)
          .defined()
          .build();

  private static final Shape<List<String>> GIVEN = Items.upTo(20, TEXT);

  static final Shape<Person> PERSON =
      Fields.of(Person.class)
          .required("identifier", IDENTIFIER)
          .required("family", TEXT)
          .required("given", GIVEN)
          .optional("organisation", TEXT)
          .defined()
          .build();

  private static final Shape<Consent> CONSENT =
      Fields.of(Consent.class)
          .required("given", FLAG)
          .required("givenBy", TEXT)
          .required("recordedOn", DATE)
          .optional("withdrawnOn", DATE)
          .required("scope", Items.upTo(10, code(ConsentScope.values())))
          .defined()
          .build();

  static final Shape<Patient> PATIENT =
      Fields.of(Patient.class)
          .required("identifier", IDENTIFIER)
          .required("family", TEXT)
          .required("given", GIVEN)
          .required("birthDate", DATE)
          .required("sex", code(Sex.values()))
          .optional("allergies", Items.upTo(50, TEXT))
          .optional("consent", CONSENT)
          .defined()
          .build();

  static final Shape<List<JointSign>> JOINT_SIGNS = Items.upTo(10, code(JointSign.values()));

  static final Shape<Diagnosis> DIAGNOSIS =
      Fields.of(Diagnosis.class)
          .required("assessedOn", DATE)
          .required("incisorClass", code(IncisorClass.values()))
          .required("molarRelation", sides(MOUTH))
          .required("overjet", MOUTH)
          .required("overbite", MOUTH)
          .optional("overbiteCover", SHARE)
          .optional("crowding", arches(MOUTH))
          .optional("lips", code(Lips.values()))
          .optional("growthStage", code(GrowthStage.values()))
          .optional("jointSigns", JOINT_SIGNS)
          .optional("hygiene", code(Hygiene.values()))
          .optional("activeCaries", FLAG)
          .required("teethPresent", TEETH)
          .defined()
          .build();

  private PeopleFormat() {}
}
