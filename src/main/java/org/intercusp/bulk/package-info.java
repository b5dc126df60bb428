/** Exports of many resources at once, by the Bulk Data Access guide of HL7: jobs and their files. */
@NullMarked
package org.intercusp.bulk;

import org.jspecify.annotations.NullMarked;
