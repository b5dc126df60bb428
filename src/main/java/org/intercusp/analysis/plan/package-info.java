/** The activation plan: how far the first bite goes and in which steps the rest follows. */
@NullMarked
package org.intercusp.analysis.plan;

import org.jspecify.annotations.NullMarked;
