/** Rules about the diagnosis. */
@NullMarked
package org.intercusp.rules.diagnosis;

import org.jspecify.annotations.NullMarked;
