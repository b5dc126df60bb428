/** Rules about construction bites. */
@NullMarked
package org.intercusp.rules.bite;

import org.jspecify.annotations.NullMarked;
