package org.intercusp.treatment;

/** Who a consent lets the record go to. */
public enum ConsentScope implements Coded {
  HOSPITAL("hospital"),
  REFERRER("referrer"),
  LABORATORY("laboratory"),
  REGISTRY("registry");

  private final String code;

  ConsentScope(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
