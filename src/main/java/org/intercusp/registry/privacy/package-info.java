/** What keeps a person from being found again in what the registry stores. */
@NullMarked
package org.intercusp.registry.privacy;

import org.jspecify.annotations.NullMarked;
