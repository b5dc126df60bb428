/** Other releases of FHIR: R4B by its likeness to R4, R5 by the library's converter and repairs. */
@NullMarked
package org.intercusp.fhir.version;

import org.jspecify.annotations.NullMarked;
