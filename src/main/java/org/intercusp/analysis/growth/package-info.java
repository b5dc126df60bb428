/** Growth stage from the cervical vertebrae of a lateral film, and what it promises. */
@NullMarked
package org.intercusp.analysis.growth;

import org.jspecify.annotations.NullMarked;
