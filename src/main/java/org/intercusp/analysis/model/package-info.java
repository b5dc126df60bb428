/** Study models: tooth-size ratios, space in the arches, irregularity of the incisors. */
@NullMarked
package org.intercusp.analysis.model;

import org.jspecify.annotations.NullMarked;
