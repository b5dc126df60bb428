package org.intercusp.registry.store;

import org.jspecify.annotations.Nullable;

/** The store cannot be used: another writer has it, or the disk fails. Says nothing of a case. */
public final class StoreFault extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public StoreFault(String message, @Nullable Throwable cause) {
    super(message + room(cause), cause);
  }

  /**
   * The one cause that its operator can mend. The others' words may quote a row, and are not told.
   */
  private static String room(@Nullable Throwable cause) {
    for (Throwable one = cause; one != null; one = one.getCause()) {
      String said = String.valueOf(one.getMessage());
      // The words of Linux and macOS, and of Windows; the engine passes them on as its own.
      if (said.contains("No space left on device")
          || said.contains("There is not enough space on the disk")) {
        return ": the disk is full; make room and try again";
      }
    }
    return "";
  }
}
