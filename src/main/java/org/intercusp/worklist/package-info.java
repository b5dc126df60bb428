/** The index behind the list of treatments: who needs attention, searched, sorted and filtered. */
@NullMarked
package org.intercusp.worklist;

import org.jspecify.annotations.NullMarked;
