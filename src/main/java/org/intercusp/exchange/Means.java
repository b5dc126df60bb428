package org.intercusp.exchange;

import java.time.Clock;

/** What all calls of one client go by. */
record Means(Post post, FhirText text, ClientSettings settings, Clock clock, Statements heard) {}
