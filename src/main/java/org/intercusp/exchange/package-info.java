/**
 * Who a treatment is delivered to, the durable deliveries, and the client that brings a Bundle to
 * any FHIR R4 server and reads a patient's treatments back.
 */
@NullMarked
package org.intercusp.exchange;

import org.jspecify.annotations.NullMarked;
