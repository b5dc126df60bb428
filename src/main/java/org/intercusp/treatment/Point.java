package org.intercusp.treatment;

import org.intercusp.measure.Decimal;

/** A point on a film in millimetres, x forward and y up. */
public record Point(Decimal x, Decimal y) {}
