/**
 * The registry's cases as Parquet files, one row a current submission, with the journal that lets
 * an interrupted load go on where it stopped.
 */
@NullMarked
package org.intercusp.registry.store;

import org.jspecify.annotations.NullMarked;
