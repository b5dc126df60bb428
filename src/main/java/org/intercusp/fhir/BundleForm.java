package org.intercusp.fhir;

/** What a treatment's Bundle is for. */
public enum BundleForm {
  /** To be stored: conditional creates of what is shared, conditional updates of what is ours. */
  TRANSACTION,
  /** To be read. */
  COLLECTION,
  /** To be read by a person too: a Composition first, with narrative in every section. */
  DOCUMENT
}
