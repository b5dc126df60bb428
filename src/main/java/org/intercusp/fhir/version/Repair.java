package org.intercusp.fhir.version;

/**
 * What the library's converter between R4 and R5 leaves wrong of one resource type, put right both
 * ways.
 *
 * @param <F> the type in R4
 * @param <T> the type in R5
 */
interface Repair<
    F extends org.hl7.fhir.r4.model.Resource, T extends org.hl7.fhir.r5.model.Resource> {

  Class<F> four();

  Class<T> five();

  /** Mends what the converter made of an R4 resource. */
  void up(F from, T made);

  /** Mends what the converter made of an R5 resource. */
  void down(T from, F made);
}
