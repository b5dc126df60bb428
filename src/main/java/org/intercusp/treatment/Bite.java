package org.intercusp.treatment;

import java.time.LocalDate;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/**
 * A construction bite as registered. The four readings are of one sliding scale, forward positive;
 * clearances are vertical distances in the bite; incisor heights run from gingival margin to edge.
 * Midlines are positive towards the patient's right.
 */
public record Bite(
    String id,
    LocalDate recordedOn,
    Length overjetHabitual,
    Length overbiteHabitual,
    Length overjetInBite,
    @Nullable Length retrudedReading,
    Length habitualReading,
    Length registeredReading,
    Length maximumReading,
    Length incisalClearance,
    @Nullable Length premolarClearance,
    @Nullable Length molarClearance,
    @Nullable Length restSpace,
    Length upperIncisorHeight,
    Length lowerIncisorHeight,
    @Nullable Length lowerMidlineHabitual,
    @Nullable Length lowerMidlineInBite,
    @Nullable Boolean crossbiteInBite,
    @Nullable Boolean comfortable) {}
