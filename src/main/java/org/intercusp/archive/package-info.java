/** The treatments a clinic handed in, each with all its versions, in the service's database. */
@NullMarked
package org.intercusp.archive;

import org.jspecify.annotations.NullMarked;
