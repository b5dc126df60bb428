/** Rules about consent to pass the record on. */
@NullMarked
package org.intercusp.rules.consent;

import org.jspecify.annotations.NullMarked;
