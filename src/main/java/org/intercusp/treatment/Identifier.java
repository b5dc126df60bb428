package org.intercusp.treatment;

/** A business identifier: a naming system (a URI) and the value in it. */
public record Identifier(String system, String value) {}
