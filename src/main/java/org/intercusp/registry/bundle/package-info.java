/** Outcome records as FHIR R4 Bundles and back, and as they follow from a treatment file. */
@NullMarked
package org.intercusp.registry.bundle;

import org.jspecify.annotations.NullMarked;
