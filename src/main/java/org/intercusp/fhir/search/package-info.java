/** What resources are searched by: R4's search parameters, and what of a resource each finds. */
@org.jspecify.annotations.NullMarked
package org.intercusp.fhir.search;
