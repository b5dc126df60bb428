/** The forms a document takes: HTML page, narrative, and tagged PDF/A. */
@NullMarked
package org.intercusp.summary.paper;

import org.jspecify.annotations.NullMarked;
