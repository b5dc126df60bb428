package org.intercusp.exchange.custody;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.sql.DataSource;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.access.Clinic;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.treatment.shape.JsonText;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.InvalidDataAccessResourceUsageException;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Brings in what {@link ClinicExport} wrote, whole or not at all, into a service that keeps nothing
 * of that clinic yet. What had not been delivered is held, so that nothing leaves twice while the
 * service it came from still runs.
 */
public final class ClinicImport {

  /** What is said of a delivery that was not at its end. */
  static final String HELD = "Brought in before it was delivered; try it again here";

  /** A version whose content was erased. */
  private static final String ERASED = "0".repeat(64);

  private static final JsonMapper JSON = new JsonMapper();

  /** Bytes of a line: a treatment file as one text in JSON, where half of it may need escapes. */
  static final int LONGEST_LINE = 4 * JsonText.MAX_BYTES;

  /** Bytes of all lines: thousands of treatments with all their versions; our own, no source. */
  private static final long LARGEST = 16L << 30;

  /** Bytes of the manifest, which has a few lines; our own, no source. */
  private static final int LARGEST_MANIFEST = 1 << 16;

  private final DataSource database;
  private final AuditTrail trail;
  private final TransactionTemplate transaction;

  public ClinicImport(DataSource database, AuditTrail trail) {
    this.database = database;
    this.trail = trail;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /** The file is not one that can be brought in here; nothing was kept. */
  public static final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Refused(String why) {
      super(why);
    }

    Refused(String why, Throwable cause) {
      super(why, cause);
    }
  }

  /**
   * Brings it in.
   *
   * @return rows by table
   * @throws Refused when the file is damaged, is of another form, or the clinic is here already
   * @throws org.intercusp.access.OutOfReach when the clinic is not the caller's
   */
  public Map<String, Long> read(InputStream in) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              try (ZipInputStream zip = new ZipInputStream(in, StandardCharsets.UTF_8)) {
                return new Reading(zip).whole();
              } catch (IOException
                  | JacksonException
                  | IllegalArgumentException
                  | DateTimeException
                  | DataIntegrityViolationException
                  | InvalidDataAccessResourceUsageException e) {
                // The last ones: a value is missing, or is none that its place can hold.
                throw new Refused("The file cannot be read", e);
              }
            }));
  }

  /** One file being read. */
  private final class Reading {
    private final ZipInputStream zip;
    private final ClinicTables tables = new ClinicTables(database);
    private final JdbcTemplate jdbc = new JdbcTemplate(database);
    private final Map<String, Long> counts = new LinkedHashMap<>();
    private final Set<String> deliveries = new HashSet<>();
    private @Nullable Clinic clinic;
    private boolean complete;
    private long bytes;

    Reading(ZipInputStream zip) {
      this.zip = zip;
    }

    Map<String, Long> whole() throws IOException {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        if (complete) {
          throw new Refused("The file goes on after its manifest");
        }
        if (entry.getName().equals(ClinicExport.MANIFEST)) {
          check(JSON.readTree(zip.readNBytes(LARGEST_MANIFEST)));
        } else {
          String table = entry.getName().replaceFirst("\\.ndjson$", "");
          counts.put(table, rows(table));
        }
      }
      if (!complete || clinic == null) {
        throw new Refused("The file ends before its manifest, or holds nothing");
      }
      trail.done(Deed.CREATE, Thing.of("Clinic", clinic, clinic.value()), "import");
      return counts;
    }

    private long rows(String table) throws IOException {
      if (!tables.names().contains(table)) {
        throw new Refused("The file has rows of an unknown kind");
      }
      long count = 0;
      for (byte[] line = line(); line.length > 0; line = line()) {
        JsonNode row = JSON.readTree(line);
        if (table.equals(ClinicTables.ATTEMPTS)) {
          ofADeliveryHere(row);
        } else {
          own(row);
        }
        if (table.equals("delivery")) {
          deliveries.add(row.path("id").asString(""));
        }
        if (table.equals("treatment_version")) {
          undamaged(row);
        }
        insert(table, row);
        count++;
      }
      return count;
    }

    /** The next line without its end; empty at the end of the entry. */
    private byte[] line() throws IOException {
      ByteArrayOutputStream line = new ByteArrayOutputStream();
      for (int one = zip.read(); one >= 0 && one != '\n'; one = zip.read()) {
        line.write(one);
        if (line.size() > LONGEST_LINE || ++bytes > LARGEST) {
          throw new Refused("The file holds more than is taken in");
        }
      }
      return line.toByteArray();
    }

    // Rows of tries name no clinic: they must not come to lie under another clinic's delivery.
    private void ofADeliveryHere(JsonNode attempt) {
      if (!deliveries.contains(attempt.path("delivery_id").asString(""))) {
        throw new Refused("The file has tries of a delivery that it does not hold");
      }
    }

    private void own(JsonNode row) {
      Clinic its =
          new Clinic(row.path("clinic_system").asString(""), row.path("clinic_value").asString(""));
      if (clinic == null) {
        trail.callers().mustReach(its);
        Long there =
            jdbc.queryForObject(
                "select count(*) from treatment where clinic_system = ? and clinic_value = ?",
                Long.class,
                its.system(),
                its.value());
        if (there == null || there > 0) {
          throw new Refused("There are treatments of this clinic here already");
        }
        clinic = its;
      } else if (!its.equals(clinic)) {
        throw new Refused("The file has rows of more than one clinic");
      }
    }

    private void insert(String table, JsonNode row) {
      List<String> names = new ArrayList<>();
      List<Object> values = new ArrayList<>();
      Map<String, String> columns = tables.columns(table);
      boolean unfinished = table.equals("delivery") && !isFinal(row);
      for (Map.Entry<String, JsonNode> one : row.properties()) {
        String type = columns.get(one.getKey());
        if (type == null) {
          throw new Refused("The file was written by a program that knew more");
        }
        if (!(unfinished && one.getKey().equals("due_at"))) {
          names.add(one.getKey());
          values.add(value(type, one.getKey(), one.getValue(), unfinished));
        }
      }
      jdbc.update(
          "insert into "
              + table
              + " ("
              + String.join(", ", names)
              + ") values ("
              + String.join(", ", Collections.nCopies(names.size(), "?"))
              + ")",
          values.toArray());
    }

    private void check(JsonNode manifest) {
      Map<String, Long> said = new LinkedHashMap<>();
      manifest.path("rows").properties().forEach(e -> said.put(e.getKey(), e.getValue().asLong()));
      if (!manifest.path("format").asString("").equals(ClinicExport.FORMAT)
          || !said.equals(counts)) {
        throw new Refused("The file does not hold what its manifest says");
      }
      complete = true;
    }
  }

  private static boolean isFinal(JsonNode delivery) {
    return DeliveryState.of(delivery.path("state").asString("")).isFinal();
  }

  private static Object value(String type, String name, JsonNode value, boolean unfinished) {
    if (unfinished && name.equals("state")) {
      return DeliveryState.HELD.code();
    }
    if (unfinished && name.equals("reason")) {
      return HELD;
    }
    if (type.startsWith("timestamp")) {
      return Instant.parse(value.asString()).atOffset(ZoneOffset.UTC);
    }
    if (value.isNumber()) {
      return value.asLong();
    }
    return value.isBoolean() ? value.asBoolean() : value.asString();
  }

  private static void undamaged(JsonNode version) {
    String said = version.path("digest").asString("");
    byte[] content = version.path("content").asString("").getBytes(StandardCharsets.UTF_8);
    boolean erased = content.length == 0 && said.equals(ERASED);
    if (!erased && !said.equals(DigestUtils.sha256Hex(content))) {
      throw new Refused("A version is not what its digest says");
    }
  }
}
