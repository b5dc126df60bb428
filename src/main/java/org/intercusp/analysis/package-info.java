/** What the trade computes from a record: pure functions that say which reading a result lacks. */
@NullMarked
package org.intercusp.analysis;

import org.jspecify.annotations.NullMarked;
