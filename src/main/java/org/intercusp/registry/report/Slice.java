package org.intercusp.registry.report;

/** A group of cases: a member of one dimension, or all. */
public record Slice(Dimension dimension, String member) implements Comparable<Slice> {

  public static final Slice ALL = new Slice(Dimension.ALL, "all");

  static Slice of(String column, String member) {
    Dimension dimension = Dimension.ofColumn(column);
    return new Slice(dimension, dimension.shown(member));
  }

  @Override
  public int compareTo(Slice other) {
    int byDimension = dimension.compareTo(other.dimension);
    return byDimension != 0 ? byDimension : dimension.order(member, other.member);
  }
}
