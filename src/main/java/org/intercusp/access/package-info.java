/** Who asks: the caller, the clinics in reach, the scopes; bound to the work done for them. */
@NullMarked
package org.intercusp.access;

import org.jspecify.annotations.NullMarked;
