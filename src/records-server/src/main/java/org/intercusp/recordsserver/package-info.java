/**
 * A general FHIR server (R4, R4B or R5) with a real database, to stand beside the service in the
 * demonstration and in tests. It is never part of the service.
 */
package org.intercusp.recordsserver;
