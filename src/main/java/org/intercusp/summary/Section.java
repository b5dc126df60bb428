package org.intercusp.summary;

/**
 * A section of a document for a FHIR Composition: its title and its narrative, an XHTML {@code div}
 * without pictures, links or scripts.
 */
public record Section(String title, String xhtml) {}
