package org.intercusp.registry.store;

import org.jspecify.annotations.Nullable;

/** The store cannot be used: another writer has it, or the disk fails. Says nothing of a case. */
public final class StoreFault extends RuntimeException {

  private static final long serialVersionUID = 1L;

  public StoreFault(String message, @Nullable Throwable cause) {
    super(message, cause);
  }
}
