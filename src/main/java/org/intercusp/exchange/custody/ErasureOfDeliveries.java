package org.intercusp.exchange.custody;

import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.WakeUps;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements that erase what is known of a treatment's deliveries. */
final class ErasureOfDeliveries {

  private static final String OF_KEY = " " + KeyColumns.ARE_GIVEN;

  private static final String IDS = "(select id from delivery where" + OF_KEY + ")";

  private final JdbcClient jdbc;

  ErasureOfDeliveries(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  long count(TreatmentKey key) {
    return of(key, "select count(*) from delivery where" + OF_KEY).query(Long.class).single();
  }

  List<String> holders(TreatmentKey key) {
    return of(
            key,
            "select distinct recipient from delivered_resource where"
                + OF_KEY
                + " order by recipient")
        .query(String.class)
        .list();
  }

  boolean isUnderWay(TreatmentKey key) {
    return of(key, "select count(*) from delivery where" + OF_KEY + " and state = 'under-way'")
            .query(Long.class)
            .single()
        > 0;
  }

  void erase(TreatmentKey key) {
    List<String> patients =
        of(key, "select distinct patient from delivery where" + OF_KEY).query(String.class).list();
    of(key, "delete from scheduled_tasks where task_name = :task and task_instance in " + IDS)
        .param("task", WakeUps.TASK)
        .update();
    of(key, "delete from delivery_attempt where delivery_id in " + IDS).update();
    of(key, "delete from delivered_resource where" + OF_KEY).update();
    of(key, "delete from delivery where" + OF_KEY).update();
    for (String patient : patients) {
      // The digest of an identifier is still of that person.
      jdbc.sql(
              "delete from delivery_lane where patient = :patient and not exists (select 1 from"
                  + " delivery d where d.patient = :patient)")
          .param("patient", patient)
          .update();
    }
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }
}
