/**
 * Lengths, angles, shares and rates as decimal value types with their UCUM units and reading error.
 */
@NullMarked
package org.intercusp.measure;

import org.jspecify.annotations.NullMarked;
