/** Teeth in ISO 3950 notation, arches, sides, the two other notations, and eruption tables. */
@NullMarked
package org.intercusp.dentition;

import org.jspecify.annotations.NullMarked;
