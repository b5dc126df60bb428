/**
 * How a JSON file format is described once, so that reading, checking, writing and its published
 * JSON Schema follow from the same description and cannot differ.
 */
@NullMarked
package org.intercusp.treatment.shape;

import org.jspecify.annotations.NullMarked;
