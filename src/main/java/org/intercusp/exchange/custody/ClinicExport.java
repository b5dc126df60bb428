package org.intercusp.exchange.custody;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.intercusp.access.Clinic;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A clinic's data as a whole, in a ZIP file of NDJSON: every version of every treatment, the
 * deliveries with their tries and what recipients were given, and the trail. One moment of the
 * database, row by row, so that its size does not matter.
 */
public final class ClinicExport {

  /** The last entry, which says what the others hold. */
  static final String MANIFEST = "manifest.json";

  /** How the file calls what it is. */
  static final String FORMAT = "intercusp-clinic/1";

  /** Rows fetched at once; common practice, no source. */
  private static final int AT_ONCE = 50;

  private static final JsonMapper JSON = new JsonMapper();

  private final DataSource database;
  private final AuditTrail trail;
  private final TransactionTemplate moment;
  private final Clock clock;

  public ClinicExport(DataSource database, AuditTrail trail, Clock clock) {
    this.database = database;
    this.trail = trail;
    this.moment = new TransactionTemplate(new JdbcTransactionManager(database));
    moment.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    moment.setReadOnly(true);
    this.clock = clock;
  }

  /**
   * Writes it, recorded before in the trail. The stream stays open.
   *
   * @throws org.intercusp.access.OutOfReach when the clinic is not the caller's
   */
  public void write(Clinic clinic, OutputStream out) {
    trail.callers().mustReach(clinic);
    trail.done(Deed.DISCLOSE, Thing.of(Thing.CLINIC, clinic, clinic.value()), "export");
    moment.executeWithoutResult(
        status -> {
          try (ZipOutputStream zip = new ZipOutputStream(unclosed(out), StandardCharsets.UTF_8)) {
            Map<String, Long> counts = new LinkedHashMap<>();
            for (String table : new ClinicTables(database).names()) {
              counts.put(table, rows(table, clinic, zip));
            }
            manifest(clinic, counts, zip);
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  private long rows(String table, Clinic clinic, ZipOutputStream zip) throws IOException {
    zip.putNextEntry(new ZipEntry(table + ".ndjson"));
    JdbcTemplate jdbc = new JdbcTemplate(database);
    jdbc.setFetchSize(AT_ONCE);
    long[] count = {0};
    jdbc.query(
        ClinicTables.rows(table),
        row -> {
          try {
            zip.write(JSON.writeValueAsBytes(json(row)));
            zip.write('\n');
            count[0]++;
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        },
        clinic.system(),
        clinic.value());
    zip.closeEntry();
    return count[0];
  }

  private void manifest(Clinic clinic, Map<String, Long> counts, ZipOutputStream zip)
      throws IOException {
    ObjectNode manifest = JsonNodeFactory.instance.objectNode();
    manifest.put("format", FORMAT);
    manifest.putObject("clinic").put("system", clinic.system()).put("value", clinic.value());
    manifest.put("exportedAt", clock.instant().toString());
    ObjectNode rows = manifest.putObject("rows");
    counts.forEach(rows::put);
    zip.putNextEntry(new ZipEntry(MANIFEST));
    zip.write(JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(manifest));
    zip.closeEntry();
  }

  private static ObjectNode json(ResultSet row) throws SQLException {
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    ResultSetMetaData columns = row.getMetaData();
    for (int i = 1; i <= columns.getColumnCount(); i++) {
      String name = columns.getColumnLabel(i).toLowerCase(Locale.ROOT);
      switch (columns.getColumnType(i)) {
        case java.sql.Types.TIMESTAMP, java.sql.Types.TIMESTAMP_WITH_TIMEZONE -> {
          OffsetDateTime time = row.getObject(i, OffsetDateTime.class);
          if (time != null) {
            node.put(name, time.toInstant().toString());
          }
        }
        case java.sql.Types.INTEGER, java.sql.Types.BIGINT, java.sql.Types.SMALLINT -> {
          long number = row.getLong(i);
          if (!row.wasNull()) {
            node.put(name, number);
          }
        }
        case java.sql.Types.BOOLEAN, java.sql.Types.BIT -> {
          boolean yes = row.getBoolean(i);
          if (!row.wasNull()) {
            node.put(name, yes);
          }
        }
        default -> {
          String text = row.getString(i);
          if (text != null) {
            node.put(name, text);
          }
        }
      }
    }
    return node;
  }

  private static OutputStream unclosed(OutputStream out) {
    return new FilterOutputStream(out) {
      @Override
      public void write(byte[] bytes, int offset, int length) throws IOException {
        out.write(bytes, offset, length);
      }

      @Override
      public void close() throws IOException {
        flush();
      }
    };
  }
}
