package org.intercusp.exchange;

import com.zaxxer.hikari.HikariDataSource;
import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.wire.Target;
import org.intercusp.treatment.ConsentScope;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** The service's deliveries in a process of their own, to be killed. */
final class DeliveryWorker {

  private DeliveryWorker() {}

  /** Works on the database file for the hospital at the URL until its input ends. */
  public static void main(String[] args) throws Exception {
    HikariDataSource database = Databases.file(Path.of(args[0]));
    TreatmentArchive archive = new TreatmentArchive(database, Clock.systemUTC());
    Clockwork clockwork =
        Clockwork.of(
                database,
                new Clockwork.Sending(
                    archive,
                    hospital(URI.create(args[1])),
                    (stored, scope) ->
                        new Clearance.Answer.Ready(
                            Parcels.bundle((ObjectNode) new JsonMapper().readTree(stored.bytes()))),
                    Clients.within(Duration.ofSeconds(60))),
                settings(),
                Clock.systemUTC())
            .build();
    clockwork.start();
    System.in.read();
    clockwork.close();
    database.close();
  }

  /** The usual ones, but for less time until a write without an answer is settled. */
  private static DeliverySettings settings() {
    DeliverySettings usual = DeliverySettings.DEFAULT;
    return new DeliverySettings(
        usual.workers(),
        usual.perRecipient(),
        usual.polling(),
        usual.lease(),
        Duration.ofSeconds(1),
        usual.longestWait(),
        usual.longestTime(),
        usual.contentions(),
        Duration.ofSeconds(6));
  }

  static Recipients hospital(URI url) {
    return new Recipients(
        List.of(new Recipient("hospital", "Hospital", Target.of(url), ConsentScope.HOSPITAL)));
  }
}
