/** Rules about outcomes. */
@NullMarked
package org.intercusp.rules.outcome;

import org.jspecify.annotations.NullMarked;
