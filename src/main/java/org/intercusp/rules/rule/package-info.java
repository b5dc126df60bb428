/**
 * What every rule is made of: its description, the case it looks at, limits, and how it reports.
 */
@NullMarked
package org.intercusp.rules.rule;

import org.jspecify.annotations.NullMarked;
