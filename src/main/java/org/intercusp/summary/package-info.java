/** What dentist, technician and family read: documents, sheets and drawings. */
@NullMarked
package org.intercusp.summary;

import org.jspecify.annotations.NullMarked;
