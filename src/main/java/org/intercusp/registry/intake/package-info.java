/** How outcomes come into the registry: from files, from lines over HTTP, from Bundles. */
@NullMarked
package org.intercusp.registry.intake;

import org.jspecify.annotations.NullMarked;
