package org.intercusp.analysis.cohort;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Which covariates a model can say something about. One in which no case differs from another has
 * no coefficient. A level that few have (a column of 0 and 1) and all or none of whom had the
 * outcome has none either, and would take the whole model with it: below ten of either outcome
 * (common practice, no source) it has no term, and its cases count with the reference.
 */
final class UsedColumns {

  private static final int FEWEST = 10;

  private UsedColumns() {}

  /**
   * The places of the columns, in their order.
   *
   * @param rows covariates a pattern
   * @param happened to how many of the pattern it happened
   * @param cases how many share the pattern
   */
  static int[] of(double[][] rows, int[] happened, int[] cases) {
    return IntStream.range(0, rows.length == 0 ? 0 : rows[0].length)
        .filter(j -> Arrays.stream(rows).anyMatch(row -> row[j] != rows[0][j]))
        .filter(j -> !isLevel(rows, j) || enough(rows, j, happened, cases))
        .toArray();
  }

  private static boolean isLevel(double[][] rows, int column) {
    return Arrays.stream(rows).allMatch(row -> row[column] == 0 || row[column] == 1);
  }

  private static boolean enough(double[][] rows, int column, int[] happened, int[] cases) {
    int[] with = new int[2];
    int[] without = new int[2];
    for (int i = 0; i < rows.length; i++) {
      int level = (int) rows[i][column];
      with[level] += happened[i];
      without[level] += cases[i] - happened[i];
    }
    return Math.min(Math.min(with[0], with[1]), Math.min(without[0], without[1])) >= FEWEST;
  }
}
