/**
 * The treatment file in FHIR R4 and back: one mapper a resource, identity, codes, and the Bundle.
 */
@NullMarked
package org.intercusp.fhir;

import org.jspecify.annotations.NullMarked;
