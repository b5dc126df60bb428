package org.intercusp.conformance;

/** How a FHIR document is written. */
public enum Format {
  JSON,
  XML
}
