/** Records kept in a spreadsheet: one row a record, read into treatment files. */
@NullMarked
package org.intercusp.treatment.sheet;

import org.jspecify.annotations.NullMarked;
