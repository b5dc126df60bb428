package org.intercusp.exchange.wire;

/** Whether a recipient's host name may stand for this machine or the cable it is on. */
public enum Vicinity {
  /** A name that leads to a loopback or link-local address is not called. */
  ELSEWHERE_ONLY,
  /** It may lead there: the recipient is known to run here. */
  THIS_MACHINE_TOO
}
