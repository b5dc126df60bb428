/**
 * What comes back: what recipients' people changed, found by asking them or met by a delivery, as
 * proposals for the clinic to decide on.
 */
@NullMarked
package org.intercusp.exchange.proposal;

import org.jspecify.annotations.NullMarked;
