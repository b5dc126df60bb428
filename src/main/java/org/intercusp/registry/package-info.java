/**
 * Outcomes from many clinics: taken in under consent, kept as pseudonyms with reduced dates,
 * counted once.
 */
@NullMarked
package org.intercusp.registry;

import org.jspecify.annotations.NullMarked;
