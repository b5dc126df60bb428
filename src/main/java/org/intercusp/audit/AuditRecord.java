package org.intercusp.audit;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One thing that somebody did or was refused. It never changes, and names no patient but in what
 * was sought.
 *
 * @param id a UUID
 * @param recordedAt when, to the microsecond
 * @param agent who, as the authorization server or this service calls them
 * @param agentName what people call them
 * @param agentKind the kind of caller, in lower case
 * @param request the id of the request, by which it is found in a log; empty where there was none
 * @param detail a few fixed words; empty where there is nothing to add
 * @param query path and parameters of a search or history; absent where they are not told
 * @param network the address a refused request came from; absent where it is not told
 */
public record AuditRecord(
    String id,
    Instant recordedAt,
    Deed deed,
    Outcome outcome,
    String agent,
    String agentName,
    String agentKind,
    Thing thing,
    String request,
    String detail,
    @Nullable String query,
    @Nullable String network) {}
