/**
 * Bite blocks: the gap they fill, predicted from the jaw's movement, and the force of their
 * inclines.
 */
@NullMarked
package org.intercusp.analysis.block;

import org.jspecify.annotations.NullMarked;
