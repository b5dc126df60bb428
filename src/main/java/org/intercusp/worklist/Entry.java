package org.intercusp.worklist;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import org.intercusp.archive.TreatmentKey;
import org.jspecify.annotations.Nullable;

/**
 * One treatment in the list, as its newest version stood when it was judged.
 *
 * @param judgedOn the day its findings are of
 * @param dayBound whether that day is the day of judging, since the record names none
 * @param patientNumber value of the patient's identifier
 * @param status {@code planned} before the first fitting, else as the record states it
 * @param stage kind of the stage that runs, where one does
 * @param errors findings that stop a delivery: refusals, and errors nobody accepted
 * @param urgent signs of harm that no clinician has answered yet
 * @param overjetStart at the diagnosis, mm
 * @param overjetNow at the last review, mm; absent before the first
 * @param overjetTarget goal of the active stage, mm
 * @param nextBy latest usual day of the next review; absent once treatment has ended
 * @param consent {@code refused} or {@code withdrawn}; absent where consent stands or none is
 *     recorded
 */
public record Entry(
    TreatmentKey key,
    int version,
    Instant receivedAt,
    LocalDate judgedOn,
    boolean dayBound,
    String clinicName,
    String patientName,
    String patientNumber,
    String status,
    @Nullable String stage,
    int errors,
    int urgent,
    int warnings,
    @Nullable BigDecimal overjetStart,
    @Nullable BigDecimal overjetNow,
    @Nullable BigDecimal overjetTarget,
    @Nullable LocalDate nextFrom,
    @Nullable LocalDate nextBy,
    @Nullable String consent) {}
