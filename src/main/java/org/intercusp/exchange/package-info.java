/**
 * Everything between the clinic and the servers of others, in parts that each build on those
 * before: {@code authorization} and {@code wire} speak to a server, {@code records} is one delivery
 * or one fetch there, {@code recipient} names who may be sent to, {@code queue} keeps deliveries,
 * {@code proposal} is what comes back, {@code courier} works the queue off. {@code custody} takes a
 * clinic's data out and in as a whole.
 */
@NullMarked
package org.intercusp.exchange;

import org.jspecify.annotations.NullMarked;
