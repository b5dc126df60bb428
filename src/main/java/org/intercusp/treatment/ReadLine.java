package org.intercusp.treatment;

/**
 * What one treatment of a file with several came to.
 *
 * @param line the line it stands on, or starts on, counted from 1
 */
public record ReadLine(long line, ReadResult result) {}
