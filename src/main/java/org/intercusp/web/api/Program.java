package org.intercusp.web.api;

/** What every door says this program is. */
public final class Program {

  /** The version of pom.xml, without what marks it as not released yet. */
  public static final String VERSION = "0.1.0";

  private Program() {}
}
