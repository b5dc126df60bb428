package org.intercusp.exchange.custody;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.OutOfReach;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A clinic's data out of one service and into a fresh one, on both databases. */
class ClinicExportTest extends DeliveryRig {

  private final ObjectNode file = Parcels.unheardOf();
  private final TreatmentKey key = TreatmentKey.of(Parcels.read(file));
  private final Clinic clinic = new Clinic(key.clinic().system(), key.clinic().value());

  private Rig filled(Databases kind) {
    new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    rig.store(file);
    ObjectNode next =
        Parcels.changed(file, f -> ((ObjectNode) f.at("/reviews/1")).put("overjet", 6));
    rig.archive.replace(key, 1, Parcels.canonical(next).getBytes(StandardCharsets.UTF_8));
    rig.store(Parcels.changed(file, f -> f.put("id", "SECOND")));
    rig.store(Parcels.unheardOf());
    rig.start();
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    return rig;
  }

  private static AuditTrail trail(DataSource database, CurrentCaller callers) {
    return new AuditTrail(database, callers, Clock.systemUTC());
  }

  private byte[] export(DataSource database) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AuditTrail trail = trail(database, CurrentCaller.withoutLogin());
    new ClinicExport(database, trail, Clock.systemUTC()).write(clinic, out);
    return out.toByteArray();
  }

  private static Map<String, Long> bringIn(DataSource database, byte[] file) {
    return new ClinicImport(database, trail(database, CurrentCaller.withoutLogin()))
        .read(new ByteArrayInputStream(file));
  }

  private static Map<String, List<String>> entries(byte[] file) throws IOException {
    Map<String, List<String>> entries = new LinkedHashMap<>();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
      for (ZipEntry one = zip.getNextEntry(); one != null; one = zip.getNextEntry()) {
        String text = new String(zip.readAllBytes(), StandardCharsets.UTF_8);
        entries.put(one.getName(), text.lines().toList());
      }
    }
    return entries;
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatComesOutGoesInAndIsTheSame(Databases kind) throws IOException {
    Rig rig = filled(kind);
    byte[] out = export(rig.database);
    DataSource fresh = (kind == Databases.H2 ? Databases.POSTGRESQL : Databases.H2).fresh();

    bringIn(fresh, out);

    Map<String, List<String>> first = entries(out);
    Map<String, List<String>> again = entries(export(fresh));
    assertThat(first.get("treatment.ndjson")).hasSize(2);
    assertThat(first.get("treatment_version.ndjson")).hasSize(3);
    assertThat(first.get("delivery_attempt.ndjson")).isNotEmpty();
    assertThat(first.get("delivered_resource.ndjson")).hasSizeGreaterThan(40);
    for (String entry : first.keySet()) {
      if (entry.endsWith(".ndjson") && !entry.startsWith("audit")) {
        assertThat(again.get(entry))
            .as(entry)
            .containsExactlyInAnyOrderElementsOf(first.get(entry));
      }
    }
    assertThat(again.get("audit_event.ndjson"))
        .as("the trail, and the import on top of it")
        .containsAll(first.get("audit_event.ndjson"))
        .hasSize(first.get("audit_event.ndjson").size() + 2);
    Rig other = new Rig(fresh);
    assertThat(other.archive.history(key)).isEqualTo(rig.archive.history(key));
    assertThat(other.deliveries.of(key)).isEqualTo(rig.deliveries.of(key));
    JsonNode line = new JsonMapper().readTree(first.get("treatment_version.ndjson").get(0));
    assertThat(new JsonMapper().readTree(line.path("content").asString()).path("format").asString())
        .isEqualTo("intercusp-treatment/1");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatWasInFlightIsHeldAndTheLedgerGoesOn(Databases kind) {
    Rig rig = filled(kind);
    TreatmentKey second = new TreatmentKey(key.clinic(), "SECOND");
    referrer.always(one -> true, (one, real) -> FaultyServer.Said.nothing());
    String id = rig.queued(second, 1, "referrer");
    DataSource fresh = kind.fresh();

    bringIn(fresh, export(rig.database));

    Rig other = new Rig(fresh);
    Delivery held = other.deliveries.find(id).orElseThrow();
    assertThat(held.state()).isEqualTo(DeliveryState.HELD);
    assertThat(held.reason()).isEqualTo(ClinicImport.HELD);
    assertThat(held.dueAt()).isNull();
    assertThat(other.count("scheduled_tasks")).isZero();
    other.start();
    assertThat(other.deliveries.queue(key, 1, "hospital")).isInstanceOf(Queueing.Queued.class);
    other.eventually(() -> other.count("scheduled_tasks") == 0);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void onlyWhatIsWhole(Databases kind) throws IOException {
    Rig rig = filled(kind);
    byte[] out = export(rig.database);
    assertThatThrownBy(() -> bringIn(rig.database, out)).hasMessageContaining("already");
    Rig one = new Rig(kind.fresh());
    one.store(Parcels.changed(file, f -> f.put("id", "THIRD")));
    assertThatThrownBy(() -> bringIn(one.database, out))
        .as("one treatment is enough")
        .hasMessageContaining("already");
    DataSource fresh = kind.fresh();
    assertThatThrownBy(() -> bringIn(fresh, java.util.Arrays.copyOf(out, out.length / 2)))
        .isInstanceOf(ClinicImport.Refused.class);
    Map<String, List<String>> entries = entries(out);
    refused(fresh, entries, "treatment_version.ndjson", "overjet", "overjot", "digest");
    refused(fresh, entries, "treatment.ndjson", clinic.value(), "another", "more than one clinic");
    refused(fresh, entries, "audit_event.ndjson", "\"detail\"", "\"detail; drop\"", "knew more");
    refused(
        fresh,
        entries,
        "delivery_attempt.ndjson",
        "\"delivery_id\":\"",
        "\"delivery_id\":\"x",
        "does not hold");
    Map<String, List<String>> changed = new LinkedHashMap<>(Map.of("users.ndjson", List.of("{}")));
    changed.putAll(entries);
    assertThatThrownBy(() -> bringIn(fresh, zip(changed))).hasMessageContaining("unknown kind");
    changed.put("users.ndjson", changed.remove("users.ndjson"));
    assertThatThrownBy(() -> bringIn(fresh, zip(changed)))
        .hasMessageContaining("goes on after its manifest");
    changed.keySet().removeAll(List.of("users.ndjson", ClinicExport.MANIFEST));
    assertThatThrownBy(() -> bringIn(fresh, zip(changed)))
        .hasMessageContaining("ends before its manifest");
    entries.put("delivery.ndjson", List.of());
    entries.put("delivery_attempt.ndjson", List.of());
    assertThatThrownBy(() -> bringIn(fresh, zip(entries))).hasMessageContaining("manifest");
    assertThat(new Rig(fresh).count("treatment")).isZero();
    assertThat(new Rig(fresh).count("audit_event")).isZero();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aValueThatCannotStandWhereItStandsIsAFaultOfTheFile(Databases kind) throws IOException {
    Rig rig = filled(kind);
    Map<String, List<String>> entries = entries(export(rig.database));
    DataSource fresh = kind.fresh();
    String why = "cannot be read";
    refused(fresh, entries, "delivery.ndjson", "\"state\":\"", "\"state\":\"flying-", why);
    refused(fresh, entries, "delivery.ndjson", "\"queued_at\":\"", "\"queued_at\":\"x", why);
    refused(fresh, entries, "treatment.ndjson", clinic.value(), "", why);
    refused(fresh, entries, "treatment.ndjson", "\"newest\":1", "\"newest\":\"many\"", why);
    refused(fresh, entries, "audit_event.ndjson", "\"deed\":", "\"detail\":", why);
    entries.replaceAll(
        (entry, lines) ->
            entry.equals("treatment.ndjson")
                ? Stream.of(lines, lines).flatMap(List::stream).toList()
                : lines);
    byte[] twice = zip(entries);
    assertThatThrownBy(() -> bringIn(fresh, twice)).isInstanceOf(ClinicImport.Refused.class);
    assertThat(new Rig(fresh).count("treatment")).isZero();
  }

  private static void refused(
      DataSource fresh,
      Map<String, List<String>> entries,
      String entry,
      String word,
      String other,
      String why)
      throws IOException {
    Map<String, List<String>> changed = new LinkedHashMap<>(entries);
    List<String> lines = new java.util.ArrayList<>(entries.get(entry));
    lines.add(lines.remove(lines.size() - 1).replace(word, other));
    changed.put(entry, lines);
    byte[] file = zip(changed);
    assertThatThrownBy(() -> bringIn(fresh, file))
        .isInstanceOf(ClinicImport.Refused.class)
        .hasMessageContaining(why);
  }

  private static byte[] zip(Map<String, List<String>> entries) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, List<String>> one : entries.entrySet()) {
        zip.putNextEntry(new ZipEntry(one.getKey()));
        for (String line : one.getValue()) {
          zip.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        }
      }
    }
    return out.toByteArray();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void anothersClinicIsOutOfReachBothWays(Databases kind) {
    Rig rig = filled(kind);
    byte[] out = export(rig.database);
    CurrentCaller callers = CurrentCaller.withLogin();
    Reach reach = new Reach.Clinics(Set.of(new Clinic(clinic.system(), "quay-side")));
    Caller theirs = new Caller("x", "x", Caller.Kind.PROGRAM, reach, Scopes.ALL);
    ByteArrayOutputStream got = new ByteArrayOutputStream();
    AuditTrail trail = trail(rig.database, callers);
    assertThatThrownBy(
            () ->
                callers.as(
                    theirs,
                    () -> {
                      new ClinicExport(rig.database, trail, Clock.systemUTC()).write(clinic, got);
                      return true;
                    }))
        .isInstanceOf(OutOfReach.class);
    assertThat(got.size()).isZero();
    DataSource fresh = kind.fresh();
    ClinicImport bringIn = new ClinicImport(fresh, trail(fresh, callers));
    assertThatThrownBy(() -> callers.as(theirs, () -> bringIn.read(new ByteArrayInputStream(out))))
        .isInstanceOf(OutOfReach.class);
    assertThat(new Rig(fresh).count("treatment")).isZero();
  }

  @Test
  void aLineThatNeverEndsIsNotReadToItsEnd() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      zip.putNextEntry(new ZipEntry("treatment.ndjson"));
      byte[] part = new byte[1 << 20];
      for (int i = 0; i <= ClinicImport.LONGEST_LINE / part.length; i++) {
        zip.write(part);
      }
    }
    DataSource fresh = Databases.H2.fresh();
    assertThatThrownBy(() -> bringIn(fresh, out.toByteArray()))
        .isInstanceOf(ClinicImport.Refused.class)
        .hasMessageContaining("more than is taken in");
  }
}
