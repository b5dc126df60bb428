/** Where the rooms are put together: the main class, wiring, settings binding and the clock. */
@NullMarked
package org.intercusp.app;

import org.jspecify.annotations.NullMarked;
