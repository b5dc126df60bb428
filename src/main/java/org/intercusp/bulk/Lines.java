package org.intercusp.bulk;

import org.intercusp.archive.FiledResource;

/** How a resource is written on a line. */
@FunctionalInterface
public interface Lines {

  /** The resource with its version and time, in JSON without a line break, in UTF-8. */
  byte[] line(FiledResource resource);
}
