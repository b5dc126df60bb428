/**
 * Cephalometry of lateral films: angles, lengths, ratios, the change between two films and what of
 * a correction is skeletal. Signs are stated at {@link org.intercusp.analysis.film.Measurement}.
 */
@NullMarked
package org.intercusp.analysis.film;

import org.jspecify.annotations.NullMarked;
