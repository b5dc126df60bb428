/** Rules about appliances as prescribed. */
@NullMarked
package org.intercusp.rules.appliance;

import org.jspecify.annotations.NullMarked;
