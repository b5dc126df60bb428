/** What the documents say, as records: one content for page, paper and narrative. */
@NullMarked
package org.intercusp.summary.content;

import org.jspecify.annotations.NullMarked;
