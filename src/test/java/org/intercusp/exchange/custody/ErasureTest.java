package org.intercusp.exchange.custody;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.Expression;
import org.intercusp.archive.ResourceTerms;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.fhir.Withdrawal;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.worklist.Upkeep;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Erasing after retention, on both databases: what goes, what stays, and what is looked for. */
class ErasureTest extends DeliveryRig {

  private static final String NAME = "Quillfeather";
  private static final String NUMBER = "QF-55213";

  private final Expression expression = new Said();
  private final ObjectNode other = Parcels.unheardOf();
  private final ObjectNode file =
      Parcels.changed(
          other,
          f -> {
            f.put("id", "TO-BE-ERASED");
            ObjectNode patient = (ObjectNode) f.path("patient");
            patient.put("family", NAME);
            ((ObjectNode) patient.path("identifier")).put("value", NUMBER);
            ObjectNode completion = f.putObject("completion");
            completion.put("status", "completed").put("decidedOn", "2026-02-01");
            completion.put("lastAttendedOn", "2026-02-20");
          });

  /** As the service says it, without the findings. */
  private static final class Said implements Expression {
    @Override
    public List<Expressed> of(StoredTreatment stored) {
      Treatment treatment = Parcels.read((ObjectNode) new JsonMapper().readTree(stored.bytes()));
      return Parcels.MAPPER.toResources(treatment, List.of()).stream()
          .map(
              one ->
                  new Expressed(
                      one.resource().fhirType(),
                      one.id(),
                      one.identifier(),
                      one.shared(),
                      one.patient(),
                      Clients.R4.newJsonParser().encodeResourceToString(one.resource())))
          .toList();
    }

    @Override
    public String withdrawn(String content) {
      Resource there = (Resource) Clients.R4.newJsonParser().parseResource(content);
      return Clients.R4.newJsonParser().encodeResourceToString(Withdrawal.of(there));
    }

    /** What a code says may name the patient. */
    @Override
    public ResourceTerms terms(String content) {
      List<ResourceTerms.Code> codes =
          Stream.of(NUMBER, NAME)
              .filter(content::contains)
              .map(word -> new ResourceTerms.Code("code", "urn:x", word))
              .toList();
      return new ResourceTerms(codes, null, null);
    }

    @Override
    public int termsForm() {
      return 1;
    }
  }

  private static byte[] canonical(ObjectNode file) {
    return Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
  }

  private static Clock at(String day) {
    return Clock.fixed(Instant.parse(day + "T10:00:00Z"), ZoneOffset.UTC);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void nothingOfThePatientIsLeftAndTheRestIs(Databases kind) throws Exception {
    new FakeRecords(hospital);
    DataSource database = kind.fresh();
    AuditTrail trail = new AuditTrail(database, CurrentCaller.withoutLogin(), Clock.systemUTC());
    Upkeep upkeep = new Upkeep(database, new TreatmentReader(), Limits.USUAL, Clock.systemUTC());
    open.add(upkeep);
    TreatmentArchive archive =
        TreatmentArchive.filing(database, trail, Clock.systemUTC(), expression, upkeep);
    Rig rig = new Rig(database);
    TreatmentKey kept = TreatmentKey.of(Parcels.read(other));
    TreatmentKey key = TreatmentKey.of(Parcels.read(file));
    archive.store(key, canonical(file));
    archive.store(kept, canonical(other));
    ObjectNode second =
        Parcels.changed(file, f -> ((ObjectNode) f.at("/clinic")).put("name", "Harbour Lane II"));
    archive.replace(key, 1, canonical(second));
    rig.start();
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    rig.await(rig.queued(kept, 1, "hospital"), DeliveryState.DELIVERED);
    open.remove(open.size() - 1).close();
    rig.queued(key, 2, "referrer");
    Map<String, Long> before = places(database);
    assertThat(before.keySet())
        .as("where the patient is before: else the scan would find nothing anywhere")
        .contains(
            "treatment_version.content",
            "resource_version.content",
            "resource_version.codes",
            "worklist.patient_name",
            "worklist.patient_number",
            "delivery_attempt.report");

    assertThat(erasure(database, archive, "2035-12-31").erase(key).orElseThrow().refusal())
        .startsWith("It must be kept until 20");
    assertThat(places(database)).isEqualTo(before);
    Erasure.Standing gone = erasure(database, archive, "2050-01-01").erase(key).orElseThrow();

    assertThat(gone.mayGo()).isTrue();
    assertThat(gone.versions()).isEqualTo(2);
    assertThat(gone.deliveries()).isEqualTo(2);
    assertThat(gone.holders()).containsExactly("hospital");
    assertThat(places(database)).isEmpty();
    assertThat(archive.current(key)).isEmpty();
    assertThat(archive.version(key, 1)).isEmpty();
    assertThat(archive.history(key)).isEmpty();
    assertThat(archive.withId("TO-BE-ERASED")).isEmpty();
    assertThat(archive.list(null, 10).total()).isEqualTo(1);
    assertThat(archive.store(key, canonical(file))).isInstanceOf(Storing.Erased.class);
    assertThat(rig.deliveries.of(key)).isEmpty();
    assertThat(rig.count("scheduled_tasks")).isZero();
    assertThat(upkeep.freshen(archive, 10)).as("nothing to judge anew").isZero();
    assertThat(archive.fileAll()).isZero();
    assertThat(deeds(database)).contains("create", "update", "delete", "queue", "disclose");

    assertThat(archive.current(kept)).isPresent();
    assertThat(rig.deliveries.of(kept)).hasSize(1);
    assertThat(
            count(
                database,
                "resource r where not exists (select 1 from resource_version v where"
                    + " v.resource_type = r.resource_type and v.logical_id = r.logical_id and"
                    + " v.version = r.newest)"))
        .as("resources without their newest version")
        .isZero();
    long resources = count(database, "resource");
    assertThat(resources).isEqualTo(expression.of(archive.current(kept).orElseThrow()).size());
    archive.replace(kept, 1, canonical(Parcels.changed(other, f -> f.put("asOf", "2026-03-19"))));
    assertThat(count(database, "resource")).isGreaterThanOrEqualTo(resources);
  }

  private Erasure erasure(DataSource database, TreatmentArchive archive, String day) {
    return new Erasure(
        database, archive, new TreatmentReader(), RetentionSettings.DEFAULT, at(day));
  }

  private static List<String> deeds(DataSource database) {
    return JdbcClient.create(database)
        .sql("select distinct deed from audit_event where thing_id = 'TO-BE-ERASED'")
        .query(String.class)
        .list();
  }

  private static long count(DataSource database, String what) {
    return JdbcClient.create(database)
        .sql("select count(*) from " + what)
        .query(Long.class)
        .single();
  }

  /** Every column of every table whose text has the patient's name or number, and how often. */
  private static Map<String, Long> places(DataSource database) {
    JdbcClient jdbc = JdbcClient.create(database);
    Map<String, Long> found = new TreeMap<>();
    List<String[]> columns =
        jdbc.sql(
                "select table_name, column_name from information_schema.columns"
                    + " where lower(table_schema) = 'public'")
            .query((row, number) -> new String[] {row.getString(1), row.getString(2)})
            .list();
    assertThat(columns).hasSizeGreaterThan(80);
    for (String[] column : columns) {
      long times =
          jdbc.sql(
                  "select count(*) from \"%s\" where lower(cast(\"%s\" as varchar)) like :name or"
                          .formatted(column[0], column[1])
                      + " lower(cast(\"%s\" as varchar)) like :number".formatted(column[1]))
              .param("name", "%" + NAME.toLowerCase(java.util.Locale.ROOT) + "%")
              .param("number", "%" + NUMBER.toLowerCase(java.util.Locale.ROOT) + "%")
              .query(Long.class)
              .single();
      if (times > 0) {
        found.put((column[0] + "." + column[1]).toLowerCase(java.util.Locale.ROOT), times);
      }
    }
    return found;
  }

  @ParameterizedTest
  @CsvSource({
    "10, 25, 2026-02-20, 2012-01-01, 2037-01-01",
    "10,  0, 2026-02-20, 2012-01-01, 2036-02-20",
    "10, 25, 2026-02-20, 1980-01-01, 2036-02-20",
    " 0,  0, 2026-02-20, 2012-01-01, 2026-02-20"
  })
  void theLaterOfBothDaysCounts(int years, int age, String end, String born, String until) {
    assertThat(new RetentionSettings(years, age).until(LocalDate.parse(end), LocalDate.parse(born)))
        .isEqualTo(until);
  }

  @Test
  void itMayGoOnTheDayItsRetentionIsOverAndNotBefore() {
    DataSource database = Databases.H2.fresh();
    Rig rig = new Rig(database);
    TreatmentKey key =
        rig.store(
            Parcels.changed(
                file, f -> ((ObjectNode) f.path("patient")).put("birthDate", "1990-05-04")));
    Erasure.Standing before =
        erasure(database, rig.archive, "2036-02-19").standing(key).orElseThrow();
    assertThat(before.until()).as("of the later of both days").isEqualTo("2036-02-20");
    assertThat(before.refusal()).isEqualTo("It must be kept until 2036-02-20.");
    assertThat(erasure(database, rig.archive, "2036-02-20").erase(key).orElseThrow().mayGo())
        .isTrue();
    assertThat(rig.archive.current(key)).isEmpty();

    TreatmentKey goesOn =
        rig.store(
            Parcels.changed(
                file,
                f -> {
                  f.put("id", "GOES-ON");
                  ((ObjectNode) f.path("completion")).put("status", "in-treatment");
                }));
    assertThat(erasure(database, rig.archive, "2090-01-01").erase(goesOn).orElseThrow().refusal())
        .contains("has not ended");
    assertThat(rig.archive.current(goesOn)).isPresent();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aTreatmentThatGoesOnIsNotErased(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    ObjectNode open = Parcels.changed(file, f -> f.remove("completion"));
    TreatmentKey key = rig.store(open);
    Erasure.Standing standing =
        erasure(database, rig.archive, "2090-01-01").erase(key).orElseThrow();
    assertThat(standing.refusal()).contains("has not ended");
    assertThat(standing.until()).isNull();
    assertThat(rig.archive.current(key)).isPresent();

    TreatmentKey busy = rig.store(Parcels.changed(file, f -> f.put("id", "BUSY")));
    String id = rig.queued(busy, 1, "hospital");
    new DeliveryRows(database, CurrentCaller.withoutLogin())
        .begin(rig.deliveries.find(id).orElseThrow(), 1, Instant.now().minus(Duration.ofDays(1)));
    assertThat(erasure(database, rig.archive, "2090-01-01").erase(busy).orElseThrow().refusal())
        .contains("under way");
    assertThat(rig.archive.current(busy)).isPresent();
  }
}
