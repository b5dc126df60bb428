/**
 * The judge of everything FHIR: a guard that bounds a document before any library reads it, the
 * validator with the project's profiles, the trade rules applied to what was read back, and the
 * answer as an OperationOutcome.
 */
@NullMarked
package org.intercusp.conformance;

import org.jspecify.annotations.NullMarked;
