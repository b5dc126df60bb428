/** Stage dates from the fitting date and the stage lengths, and when the next review is due. */
@NullMarked
package org.intercusp.analysis.stage;

import org.jspecify.annotations.NullMarked;
