/** What a check says of a record: findings, figures, where they point and how far to trust them. */
@NullMarked
package org.intercusp.finding;

import org.jspecify.annotations.NullMarked;
