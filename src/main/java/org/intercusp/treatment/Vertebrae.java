package org.intercusp.treatment;

/**
 * What the cervical vertebrae show on a lateral film: lower borders and the shapes of two bodies.
 */
public record Vertebrae(
    boolean c2Concave,
    boolean c3Concave,
    boolean c4Concave,
    BodyShape c3Shape,
    BodyShape c4Shape) {}
