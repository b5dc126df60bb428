/**
 * What a clinic submits to a registry about one treatment: one JSON object, minimised to what a
 * registry needs; its strict reader, its rules, its writer and its schema from one description.
 */
@NullMarked
package org.intercusp.treatment.submission;

import org.jspecify.annotations.NullMarked;
