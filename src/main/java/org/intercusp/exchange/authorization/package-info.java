/**
 * How a recipient's servers are told who sends: nothing, a token given out by hand, or SMART
 * Backend Services with keys of our own.
 */
@NullMarked
package org.intercusp.exchange.authorization;

import org.jspecify.annotations.NullMarked;
