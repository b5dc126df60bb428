/** Forms on which a clinician records a construction bite or a review, and hands in a file. */
@NullMarked
package org.intercusp.web.pages.entry;

import org.jspecify.annotations.NullMarked;
