package org.intercusp.treatment;

import org.jspecify.annotations.Nullable;

/** A clinic or a dental laboratory. */
public record Organisation(Identifier identifier, String name, @Nullable String contact) {}
