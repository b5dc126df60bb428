package org.intercusp.registry.report.spark;

import java.util.HashMap;
import java.util.Iterator;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.storage.StorageLevel;
import org.intercusp.registry.report.RowSource;
import org.jspecify.annotations.Nullable;

/** Apache Spark over the Parquet files of a registry: runs the same SQL as the embedded engine. */
final class SparkRows implements RowSource {

  private final SparkSession spark;
  private final Map<String, Dataset<org.apache.spark.sql.Row>> kept = new HashMap<>();

  private SparkRows(SparkSession spark) {
    this.spark = spark;
  }

  /**
   * Opens the rows.
   *
   * @param cases where the Parquet files lie, as Spark names places
   */
  static SparkRows over(SparkSession spark, String cases) {
    spark
        .read()
        .option("mergeSchema", "true")
        .option("pathGlobFilter", "part-*.parquet")
        .parquet(cases)
        .createOrReplaceTempView("cases");
    spark.sql(
        "CREATE OR REPLACE TEMPORARY FUNCTION brief(content STRING) RETURNS BIGINT"
            + " RETURN xxhash64(content)");
    return new SparkRows(spark);
  }

  @Override
  public void view(String name, String sql) {
    spark.sql(sql).createOrReplaceTempView(name);
  }

  @Override
  public void keep(String name, String sql) {
    Dataset<org.apache.spark.sql.Row> rows = spark.sql(sql).persist(StorageLevel.MEMORY_AND_DISK());
    // Read now: what it is made from may be let go before it is asked.
    rows.count();
    rows.createOrReplaceTempView(name);
    Dataset<org.apache.spark.sql.Row> before = kept.put(name, rows);
    if (before != null) {
      before.unpersist();
    }
  }

  @Override
  public void forget(String name) {
    spark.catalog().dropTempView(name);
    Objects.requireNonNull(kept.remove(name), name).unpersist();
  }

  @Override
  public void each(String sql, Consumer<Row> use) {
    Iterator<org.apache.spark.sql.Row> rows = spark.sql(sql).toLocalIterator();
    while (rows.hasNext()) {
      use.accept(new Found(rows.next()));
    }
  }

  private record Found(org.apache.spark.sql.Row row) implements Row {

    private @Nullable Object value(String column) {
      return row.get(row.fieldIndex(column));
    }

    @Override
    public boolean has(String column) {
      return value(column) != null;
    }

    @Override
    public @Nullable String text(String column) {
      Object value = value(column);
      return value == null ? null : value.toString();
    }

    @Override
    public long whole(String column) {
      return value(column) instanceof Number number ? number.longValue() : 0;
    }

    @Override
    public double number(String column) {
      return value(column) instanceof Number number ? number.doubleValue() : 0;
    }
  }
}
