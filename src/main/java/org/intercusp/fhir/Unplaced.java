package org.intercusp.fhir;

/**
 * Something a Bundle says that has no place in the treatment file.
 *
 * @param expression FHIRPath that resolves to it
 * @param value in a few words
 */
public record Unplaced(String expression, String value) {}
