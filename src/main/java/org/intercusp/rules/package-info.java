/**
 * The rule catalogue, the examination of a treatment, and what a person or a machine reads of it.
 */
@NullMarked
package org.intercusp.rules;

import org.jspecify.annotations.NullMarked;
