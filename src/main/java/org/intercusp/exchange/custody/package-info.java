/**
 * A clinic's data as a whole, taken out and brought in again, and the erasure of a treatment whose
 * retention has run out.
 */
@NullMarked
package org.intercusp.exchange.custody;

import org.jspecify.annotations.NullMarked;
