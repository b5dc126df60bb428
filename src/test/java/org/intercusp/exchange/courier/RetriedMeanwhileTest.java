package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.Parcels;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A person asks for a delivery again while a worker is just done with it. */
class RetriedMeanwhileTest extends DeliveryRig {

  private static final int TIMES = 400;

  @Test
  void aWakeUpThatEndsMeanwhileIsMadeAnew() {
    DataSource database = Databases.H2.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    AtomicBoolean over = new AtomicBoolean();
    JdbcClient jdbc = JdbcClient.create(database);
    CompletableFuture<Void> worker =
        CompletableFuture.runAsync(
            () -> {
              while (!over.get()) {
                jdbc.sql("delete from scheduled_tasks").update();
              }
            });
    try {
      for (int i = 0; i < TIMES; i++) {
        assertThat(rig.deliveries.retry(id)).isPresent();
      }
    } finally {
      over.set(true);
      worker.join();
    }
    rig.deliveries.retry(id);
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isEqualTo(1);
  }
}
