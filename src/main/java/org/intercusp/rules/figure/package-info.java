/** The figures of a treatment, from every calculation there is. */
@NullMarked
package org.intercusp.rules.figure;

import org.jspecify.annotations.NullMarked;
