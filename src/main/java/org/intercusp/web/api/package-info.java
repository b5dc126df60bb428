/**
 * The HTTP door for programs: treatments, checks, deliveries, rules, as JSON and problem details.
 */
@NullMarked
package org.intercusp.web.api;

import org.jspecify.annotations.NullMarked;
