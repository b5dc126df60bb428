package org.intercusp.conformance;

import java.util.Collection;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Runs {@link BundleCost} and prints each cost as a ratio to the tree read of the same run. */
public final class BundleCosts {

  private BundleCosts() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws RunnerException {
    Collection<RunResult> results =
        new Runner(
                new OptionsBuilder()
                    .include(BundleCost.class.getName() + "\\.")
                    .jvmArgs("-Xmx1g")
                    .build())
            .run();
    double read = cost(results, "treeRead");
    double write = cost(results, "treeWrite");
    System.out.printf(
        "%n%-24s %14s %16s %17s%n", "of 25 entries", "microseconds", "x tree read", "x tree write");
    for (RunResult result : results) {
      double cost = result.getPrimaryResult().getScore();
      String name = result.getPrimaryResult().getLabel();
      System.out.printf("%-24s %14.1f %16.2f %17.2f%n", name, cost, cost / read, cost / write);
    }
  }

  private static double cost(Collection<RunResult> results, String name) {
    return results.stream()
        .filter(result -> result.getPrimaryResult().getLabel().equals(name))
        .mapToDouble(result -> result.getPrimaryResult().getScore())
        .findFirst()
        .orElseThrow();
  }
}
