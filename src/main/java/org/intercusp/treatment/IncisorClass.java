package org.intercusp.treatment;

/** Incisor classification; class III is outside what the product plans. */
public enum IncisorClass implements Coded {
  I("I"),
  II_1("II/1"),
  II_2("II/2"),
  III("III");

  private final String code;

  IncisorClass(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
