/** Who saw and did what: written beside the deed and never changed. */
@NullMarked
package org.intercusp.audit;

import org.jspecify.annotations.NullMarked;
