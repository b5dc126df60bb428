package org.intercusp.treatment;

import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/** Material taken off a block at a review. */
public record Trim(Arch arch, Side side, @Nullable Tooth tooth, Face face, Length amount) {

  /** The face that was trimmed; the incline is never cut. */
  public enum Face implements Coded {
    OCCLUSODISTAL("occlusodistal"),
    OCCLUSAL_PREMOLAR("occlusal-premolar"),
    OTHER("other");

    private final String code;

    Face(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }
}
