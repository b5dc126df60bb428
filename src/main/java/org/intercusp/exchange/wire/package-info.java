/**
 * How a server is spoken to: within a deadline and bounds of length, on the configured host alone,
 * with what it wants to see; FHIR in and out in the release that it speaks, and why a call came to
 * nothing.
 */
@NullMarked
package org.intercusp.exchange.wire;

import org.jspecify.annotations.NullMarked;
