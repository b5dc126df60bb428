/** What every calculation hands back: a result or the reason there is none, and figures from it. */
@NullMarked
package org.intercusp.analysis;

import org.jspecify.annotations.NullMarked;
