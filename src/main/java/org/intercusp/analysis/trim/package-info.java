/** The trimming plan: what comes off the upper blocks at each visit, and until when. */
@NullMarked
package org.intercusp.analysis.trim;

import org.jspecify.annotations.NullMarked;
