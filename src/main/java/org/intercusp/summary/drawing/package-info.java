/** Drawings to scale as SVG, from the figures alone. */
@NullMarked
package org.intercusp.summary.drawing;

import org.jspecify.annotations.NullMarked;
