/**
 * The durable deliveries: queued in the transaction that stores a treatment, with their tries, the
 * lanes in which one patient's deliveries follow one another, and the ledger of what each recipient
 * was given.
 */
@NullMarked
package org.intercusp.exchange.queue;

import org.jspecify.annotations.NullMarked;
