package org.intercusp.exchange.records;

/**
 * Something at a recipient that has no place in the treatment file, or that a delivery met there.
 *
 * @param path FHIRPath from the address of the resource
 * @param value in a few words; empty for people and organisations, which the file does not need
 */
public record Beyond(String path, String value) {}
