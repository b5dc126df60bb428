/** The pages people look at, rendered by the server and readable without script. */
@NullMarked
package org.intercusp.web.pages;

import org.jspecify.annotations.NullMarked;
