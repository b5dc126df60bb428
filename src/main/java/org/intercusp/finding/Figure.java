package org.intercusp.finding;

import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/**
 * One computed figure for a person or a machine.
 *
 * @param name stable kebab-case name
 * @param subject id of the element it was computed from
 * @param value absent when a reading is missing; then the note says which
 * @param unit absent for words
 * @param usual the usual range in words
 * @param source where the constants come from
 * @param note assumptions, reading error, or what is missing
 */
public record Figure(
    String name,
    String subject,
    @Nullable Value value,
    @Nullable Unit unit,
    @Nullable String usual,
    Source source,
    @Nullable String note) {}
