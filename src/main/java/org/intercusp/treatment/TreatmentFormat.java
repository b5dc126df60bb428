package org.intercusp.treatment;

import static org.intercusp.treatment.Measures.DATE;
import static org.intercusp.treatment.Measures.TEXT;
import static org.intercusp.treatment.Measures.code;

import org.intercusp.finding.Source;
import org.intercusp.treatment.shape.Fields;
import org.intercusp.treatment.shape.Items;
import org.intercusp.treatment.shape.Keyed;
import org.intercusp.treatment.shape.Numbers;
import org.intercusp.treatment.shape.Shape;
import org.intercusp.treatment.shape.Words;

/** The whole treatment file, described once for the reader, the writer and the schema. */
final class TreatmentFormat {

  /** Where faults of form are measured against. */
  static final Source SOURCE = Source.published("treatment file format " + Treatment.FORMAT);

  private static final Shape<Completion> COMPLETION =
      Fields.of(Completion.class)
          .required("status", code(Completion.Status.values()))
          .optional("reason", code(Completion.Reason.values()))
          .required("decidedOn", DATE)
          .required("lastAttendedOn", DATE)
          .defined()
          .build();

  private static final Shape<Acceptance.By> BY =
      Fields.of(Acceptance.By.class)
          .required("identifier", PeopleFormat.IDENTIFIER)
          .required("family", TEXT)
          .build();

  private static final Shape<Acceptance> ACCEPTANCE =
      Fields.of(Acceptance.class)
          .required("finding", Words.id())
          .required("subject", Words.id())
          .required("values", new Keyed<>(Words.id(), Numbers.decimal("-1000000", "1000000"), 50))
          .required("reason", TEXT)
          .required("by", BY)
          .required("on", DATE)
          .defined()
          .build();

  static final Shape<Treatment> TREATMENT =
      Fields.of(Treatment.class)
          .constant("format", Treatment.FORMAT)
          .required("id", Words.id())
          .optional("asOf", DATE)
          .required("clinic", PeopleFormat.ORGANISATION)
          .required("clinician", PeopleFormat.PERSON)
          .required("patient", PeopleFormat.PATIENT)
          .optional("referrer", PeopleFormat.PERSON)
          .optional("laboratory", PeopleFormat.ORGANISATION)
          .required("diagnosis", PeopleFormat.DIAGNOSIS)
          .required("bites", Items.upTo(100, PlanFormat.BITE))
          .required("appliances", Items.upTo(100, PlanFormat.APPLIANCE))
          .required("stages", Items.upTo(100, PlanFormat.STAGE))
          .required("reviews", Items.upTo(500, ReviewFormat.REVIEW))
          .optionalList("films", Items.upTo(100, ImagingFormat.FILM))
          .optionalList("models", Items.upTo(100, ImagingFormat.MODEL))
          .optionalList("outcomes", Items.upTo(100, OutcomeFormat.OUTCOME))
          .optional("completion", COMPLETION)
          .optionalList("acceptances", Items.upTo(500, ACCEPTANCE))
          .build();

  private TreatmentFormat() {}
}
