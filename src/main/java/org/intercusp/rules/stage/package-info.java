/** Rules about the stages of the plan. */
@NullMarked
package org.intercusp.rules.stage;

import org.jspecify.annotations.NullMarked;
