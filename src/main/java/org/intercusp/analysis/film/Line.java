package org.intercusp.analysis.film;

import org.intercusp.treatment.Landmark;

/**
 * A directed line of a tracing by its two landmarks; planes and axes run forward, tooth axes from
 * apex to edge.
 */
public enum Line {
  SN(Landmark.S, Landmark.N),
  NA(Landmark.N, Landmark.A),
  NB(Landmark.N, Landmark.B),
  MAXILLARY(Landmark.PNS, Landmark.ANS),
  MANDIBULAR(Landmark.GO, Landmark.ME),
  UPPER_INCISOR(Landmark.UIA, Landmark.UI),
  LOWER_INCISOR(Landmark.LIA, Landmark.LI),
  /** Functional occlusal plane. */
  OCCLUSAL(Landmark.OPP, Landmark.OPA),
  /** Occlusal line of the sagittal-occlusal analysis: molar cusp to incisal edge. */
  OCCLUSAL_LINE(Landmark.U6D, Landmark.UI),
  S_GO(Landmark.S, Landmark.GO),
  N_ME(Landmark.N, Landmark.ME),
  CO_GN(Landmark.CO, Landmark.GN),
  CO_A(Landmark.CO, Landmark.A),
  /** Outlines, which are drawn and never measured. */
  RAMUS(Landmark.CO, Landmark.GO),
  CHIN(Landmark.POG, Landmark.ME),
  FACE(Landmark.B, Landmark.POG);

  private final Landmark from;
  private final Landmark to;

  Line(Landmark from, Landmark to) {
    this.from = from;
    this.to = to;
  }

  public Landmark from() {
    return from;
  }

  public Landmark to() {
    return to;
  }
}
