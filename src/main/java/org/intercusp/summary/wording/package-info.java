/** How text and numbers of a record are shown: cleaned, plain digits, with units. */
@NullMarked
package org.intercusp.summary.wording;

import org.jspecify.annotations.NullMarked;
