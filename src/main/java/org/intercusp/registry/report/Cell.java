package org.intercusp.registry.report;

/** One count of a report, of a group. */
record Cell(Slice slice, String column) {}
