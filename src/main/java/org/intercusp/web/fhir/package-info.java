/** The FHIR door: what the service says of itself, and validation, in FHIR R4. */
@NullMarked
package org.intercusp.web.fhir;

import org.jspecify.annotations.NullMarked;
