/** Invented treatments, the same for the same seed, for trying things out and for tests. */
@NullMarked
package org.intercusp.scenario;

import org.jspecify.annotations.NullMarked;
