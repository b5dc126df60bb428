/** What stands in front of every HTTP door: host, origin, content type, tokens on forms. */
@NullMarked
package org.intercusp.app.security;

import org.jspecify.annotations.NullMarked;
