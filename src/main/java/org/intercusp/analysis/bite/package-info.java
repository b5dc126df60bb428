/**
 * The construction bite: path, activation, share of the path, slide, and the vertical dimension.
 */
@NullMarked
package org.intercusp.analysis.bite;

import org.jspecify.annotations.NullMarked;
