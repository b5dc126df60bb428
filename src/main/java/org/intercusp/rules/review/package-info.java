/** Rules about reviews and progress. */
@NullMarked
package org.intercusp.rules.review;

import org.jspecify.annotations.NullMarked;
