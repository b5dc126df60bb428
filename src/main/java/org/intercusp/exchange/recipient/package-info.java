/** Who treatments may be delivered to, and what a treatment must pass before it leaves. */
@NullMarked
package org.intercusp.exchange.recipient;

import org.jspecify.annotations.NullMarked;
