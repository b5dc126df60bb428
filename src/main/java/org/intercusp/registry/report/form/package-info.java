/** The report's forms: JSON, CSV, FHIR MeasureReport, text, and the page with its charts. */
@NullMarked
package org.intercusp.registry.report.form;

import org.jspecify.annotations.NullMarked;
