/** Checks of the FHIR room: what goes out comes back, names stay, and the codes are defined. */
@NullMarked
package org.intercusp.fhir;

import org.jspecify.annotations.NullMarked;
