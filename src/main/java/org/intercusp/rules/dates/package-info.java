/** Rules about the order of dates. */
@NullMarked
package org.intercusp.rules.dates;

import org.jspecify.annotations.NullMarked;
