/** The treatment file as immutable trade records, its strict reader and its writer. */
@NullMarked
package org.intercusp.treatment;

import org.jspecify.annotations.NullMarked;
