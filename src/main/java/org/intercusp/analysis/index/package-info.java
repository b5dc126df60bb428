/** Occlusal indices from findings or scores: PAR, dental health component, ICON, need. */
@NullMarked
package org.intercusp.analysis.index;

import org.jspecify.annotations.NullMarked;
