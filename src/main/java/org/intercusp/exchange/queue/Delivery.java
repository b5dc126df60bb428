package org.intercusp.exchange.queue;

import java.time.Instant;
import org.intercusp.archive.TreatmentKey;
import org.jspecify.annotations.Nullable;

/**
 * The delivery of one version of a treatment to one recipient, as it stood when it was read.
 *
 * @param recipient the recipient's name
 * @param reason one sentence for a person, empty where there is nothing to say
 * @param dueAt when it is tried next; absent when nothing more happens by itself
 * @param attempts how often it was tried
 */
public record Delivery(
    String id,
    TreatmentKey treatment,
    int version,
    String recipient,
    DeliveryState state,
    String reason,
    Instant queuedAt,
    Instant changedAt,
    @Nullable Instant dueAt,
    int attempts) {}
