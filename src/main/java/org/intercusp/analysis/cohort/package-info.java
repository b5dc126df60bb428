/** What a registry says of many cases: reduction, ends, length, and case-mix adjusted rates. */
@NullMarked
package org.intercusp.analysis.cohort;

import org.jspecify.annotations.NullMarked;
