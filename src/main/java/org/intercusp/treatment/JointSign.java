package org.intercusp.treatment;

/** A sign at the jaw joint; pain is pain in front of the ear. */
public enum JointSign implements Coded {
  CLICK("click"),
  CREPITUS("crepitus"),
  PAIN("pain"),
  LOCKING("locking"),
  LIMITED_OPENING("limited-opening");

  private final String code;

  JointSign(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
