/**
 * Progress: the rate of overjet reduction with its interval, what was expected, and a projection.
 */
@NullMarked
package org.intercusp.analysis.progress;

import org.jspecify.annotations.NullMarked;
