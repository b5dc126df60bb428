package org.intercusp.finding;

/**
 * What may be said of an exception nobody expected: its kind and where it was thrown. Its message
 * stays out of logs, answers and the database, since it can hold a patient's data.
 */
public final class FaultPlace {

  /** Deeper causes are not looked for, since causes can be made to go round in a circle. */
  private static final int DEEPEST = 20;

  private FaultPlace() {}

  /** Its kind and place, and those of what caused it in the end. */
  public static String of(Throwable fault) {
    Throwable root = fault;
    for (int i = 0; i < DEEPEST && root.getCause() != null; i++) {
      root = root.getCause();
    }
    return root == fault ? one(fault) : one(fault) + ", caused by " + one(root);
  }

  /** Its place alone. */
  public static String place(Throwable fault) {
    StackTraceElement[] trace = fault.getStackTrace();
    return trace.length == 0 ? "an unknown place" : trace[0].toString();
  }

  private static String one(Throwable fault) {
    return fault.getClass().getName() + " at " + place(fault);
  }
}
