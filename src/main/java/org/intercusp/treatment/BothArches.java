package org.intercusp.treatment;

import org.intercusp.dentition.Arch;
import org.intercusp.measure.Length;

/** A length in each arch. */
public record BothArches(Length upper, Length lower) {

  /** The length of one arch. */
  public Length in(Arch arch) {
    return arch == Arch.UPPER ? upper : lower;
  }
}
