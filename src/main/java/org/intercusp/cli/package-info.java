/** The command line: thin commands over the same rooms the HTTP doors use. */
@NullMarked
package org.intercusp.cli;

import org.jspecify.annotations.NullMarked;
