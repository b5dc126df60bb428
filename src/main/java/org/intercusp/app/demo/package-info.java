/** What stands beside the service in a demonstration: a records server in a process of its own. */
@NullMarked
package org.intercusp.app.demo;

import org.jspecify.annotations.NullMarked;
