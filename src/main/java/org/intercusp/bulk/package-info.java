/** Exports of many resources at once, by HL7 Bulk Data Access: jobs and their files. */
@NullMarked
package org.intercusp.bulk;

import org.jspecify.annotations.NullMarked;
