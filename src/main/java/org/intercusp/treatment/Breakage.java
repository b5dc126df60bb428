package org.intercusp.treatment;

/** A part of an appliance that broke, and what was done. */
public record Breakage(String applianceId, Part part, Action action) {

  /** The part that broke. */
  public enum Part implements Coded {
    BLOCK("block"),
    CLASP("clasp"),
    BOW("bow"),
    SCREW("screw"),
    BASEPLATE("baseplate");

    private final String code;

    Part(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }

  /** What was done about it. */
  public enum Action implements Coded {
    ADJUSTED("adjusted"),
    REPAIRED("repaired"),
    REMADE("remade");

    private final String code;

    Action(String code) {
      this.code = code;
    }

    @Override
    public String code() {
      return code;
    }
  }
}
