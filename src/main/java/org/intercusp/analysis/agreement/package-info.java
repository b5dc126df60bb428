/**
 * Error and agreement of readings and scorings, and the statistics a registry needs: intervals,
 * curves of time to an event, limits of a funnel. Distributions come from a statistics library.
 */
@NullMarked
package org.intercusp.analysis.agreement;

import org.jspecify.annotations.NullMarked;
