/**
 * One delivery to a records server, and one fetch from it: what is there, what has to be written so
 * that it holds what is sent, and what its people changed, deleted or merged since.
 */
@NullMarked
package org.intercusp.exchange.records;

import org.jspecify.annotations.NullMarked;
