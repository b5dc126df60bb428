package org.intercusp.exchange.wire;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import org.intercusp.conformance.Guard;
import org.intercusp.fhir.Canonicals;

/** Begins calls to servers. All of them share connections, tokens and what bounds a call. */
public final class Calls {

  private final FhirText text;
  private final ClientSettings settings;
  private final Clock clock;
  private final Post post;

  /**
   * Calls within these settings.
   *
   * @param r4 the context for R4, shared since it is dear to make
   * @param canonicals under which what is sent was mapped
   * @param guard stands before every answer
   */
  public Calls(
      FhirContext r4, Canonicals canonicals, Guard guard, ClientSettings settings, Clock clock) {
    this(r4, canonicals, guard, settings, clock, new Surroundings());
  }

  Calls(
      FhirContext r4,
      Canonicals canonicals,
      Guard guard,
      ClientSettings settings,
      Clock clock,
      Surroundings surroundings) {
    this.text = new FhirText(r4, canonicals, guard);
    this.settings = settings;
    this.clock = clock;
    Wire wire = new Wire(settings, surroundings);
    this.post = new Post(wire, new TokenDesk(wire, clock));
  }

  /**
   * One call; nothing is sent before it is asked for something.
   *
   * @param deadline of all that is asked in it, waits and retries included
   * @param past what the sender knows of earlier tries; {@link Past#READING} for who only reads
   */
  public FhirServer to(Target target, Deadline deadline, Past past) {
    return new FhirServer(target, post, text, settings, clock, deadline, past);
  }
}
