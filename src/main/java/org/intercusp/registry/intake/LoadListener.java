package org.intercusp.registry.intake;

import java.util.List;

/** Hears how a load goes on. */
public interface LoadListener {

  /**
   * A batch was written.
   *
   * @param refusals what was refused in it, as lines of JSON
   */
  void written(LoadStatus status, List<String> refusals);
}
