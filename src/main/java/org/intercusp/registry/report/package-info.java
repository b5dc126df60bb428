/**
 * What a registry reports: gathers counts and sums over the outcome rows, hides small cells, and
 * writes the same figures as JSON, CSV, FHIR MeasureReport, page and text.
 */
@NullMarked
package org.intercusp.registry.report;

import org.jspecify.annotations.NullMarked;
