package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.hipparchus.optim.MaxIter;
import org.hipparchus.optim.linear.LinearConstraint;
import org.hipparchus.optim.linear.LinearConstraintSet;
import org.hipparchus.optim.linear.LinearObjectiveFunction;
import org.hipparchus.optim.linear.NonNegativeConstraint;
import org.hipparchus.optim.linear.Relationship;
import org.hipparchus.optim.linear.SimplexSolver;
import org.hipparchus.optim.nonlinear.scalar.GoalType;

/**
 * All that unknowns of 0 and more may be under equations of which one solution is known.
 * Elimination leaves some that the others follow from; linear programs then move away from the
 * known solution.
 */
final class Polyhedron {

  private static final double NOTHING = 1e-7;
  private static final int ANYWHERE = 12;

  private final List<Integer> solution;
  private final Map<Integer, TreeMap<Integer, Double>> pivots = new TreeMap<>();
  private final Map<Integer, Integer> loose = new HashMap<>();
  private final List<LinearConstraint> constraints = new ArrayList<>();

  Polyhedron(List<Integer> solution, Collection<TreeMap<Integer, Double>> equations) {
    this.solution = solution;
    equations.forEach(this::eliminate);
    for (int at = 0; at < solution.size(); at++) {
      if (!pivots.containsKey(at)) {
        loose.put(at, loose.size());
      }
    }
    for (int at = 0; at < solution.size(); at++) {
      double[] down = moved(at);
      for (int i = 0; i < down.length; i++) {
        down[i] = -down[i];
      }
      constraints.add(new LinearConstraint(down, Relationship.LEQ, solution.get(at)));
    }
    double[] all = new double[2 * loose.size()];
    Arrays.fill(all, 1);
    constraints.add(new LinearConstraint(all, Relationship.LEQ, 1000));
  }

  private void eliminate(TreeMap<Integer, Double> equation) {
    TreeMap<Integer, Double> row = new TreeMap<>(equation);
    for (Integer at : List.copyOf(row.keySet())) {
      TreeMap<Integer, Double> other = pivots.get(at);
      if (other != null && row.containsKey(at)) {
        subtract(row, other, row.get(at));
      }
    }
    if (row.isEmpty()) {
      return;
    }
    int pivot = row.firstKey();
    double lead = row.get(pivot);
    row.replaceAll((key, value) -> value / lead);
    for (TreeMap<Integer, Double> other : pivots.values()) {
      Double factor = other.get(pivot);
      if (factor != null) {
        subtract(other, row, factor);
      }
    }
    pivots.put(pivot, row);
  }

  private static void subtract(
      TreeMap<Integer, Double> row, TreeMap<Integer, Double> other, double factor) {
    other.forEach(
        (key, value) -> {
          double left = row.getOrDefault(key, 0.0) - factor * value;
          if (Math.abs(left) < NOTHING) {
            row.remove(key);
          } else {
            row.put(key, left);
          }
        });
  }

  /** How an unknown moves with the loose ones: each up, then each down. */
  private double[] moved(int unknown) {
    double[] by = new double[2 * loose.size()];
    TreeMap<Integer, Double> row = pivots.get(unknown);
    if (row == null) {
      put(by, unknown, 1);
    } else {
      row.forEach(
          (at, factor) -> {
            if (at != unknown) {
              put(by, at, -factor);
            }
          });
    }
    return by;
  }

  private void put(double[] by, int unknown, double factor) {
    int at = loose.get(unknown);
    by[at] = factor;
    by[at + loose.size()] = -factor;
  }

  /** Which of the unknowns asked for may be something else. */
  boolean[] free(boolean[] asked) {
    boolean[] free = new boolean[solution.size()];
    Random random = new Random(7);
    for (int i = 0; i < ANYWHERE; i++) {
      double[] goal = new double[2 * loose.size()];
      for (int at = 0; at < asked.length; at++) {
        if (asked[at] && !free[at]) {
          add(goal, moved(at), random.nextDouble() - 0.5);
        }
      }
      move(goal, free);
    }
    for (int at = 0; at < asked.length; at++) {
      for (int sign = -1; sign <= 1 && asked[at] && !free[at]; sign += 2) {
        double[] goal = new double[2 * loose.size()];
        add(goal, moved(at), sign);
        move(goal, free);
      }
    }
    return free;
  }

  private static void add(double[] to, double[] more, double factor) {
    for (int i = 0; i < to.length; i++) {
      to[i] += factor * more[i];
    }
  }

  private void move(double[] goal, boolean[] free) {
    double[] point =
        new SimplexSolver()
            .optimize(
                new MaxIter(100_000),
                new LinearObjectiveFunction(goal, 0),
                new LinearConstraintSet(constraints),
                GoalType.MAXIMIZE,
                new NonNegativeConstraint(true))
            .getPoint();
    for (int at = 0; at < free.length; at++) {
      double[] by = moved(at);
      double move = 0;
      for (int i = 0; i < by.length; i++) {
        move += by[i] * point[i];
      }
      free[at] |= Math.abs(move) > 1e-6;
    }
  }
}
