/**
 * The workers: they take what is due from the queue, try it while they hold the patient's lane,
 * write down what came of it and when to come again; and the meters of it all.
 */
@NullMarked
package org.intercusp.exchange.courier;

import org.jspecify.annotations.NullMarked;
