/** The registry's report by Apache Spark, for more cases than one machine counts. */
@NullMarked
package org.intercusp.registry.report.spark;

import org.jspecify.annotations.NullMarked;
