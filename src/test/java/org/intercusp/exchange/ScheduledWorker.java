package org.intercusp.exchange;

import com.zaxxer.hikari.HikariDataSource;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.wire.Target;
import tools.jackson.databind.json.JsonMapper;

/**
 * An instance of the service's deliveries in a process of its own, told line by line what to do
 * until it is killed or its input ends.
 */
final class ScheduledWorker {

  /** Begins every answer; other lines are the log's. */
  static final String ANSWER = "> ";

  private static final JsonMapper JSON = new JsonMapper();

  private ScheduledWorker() {}

  /**
   * Works.
   *
   * @param args the database's file or JDBC URL, the server's URL, what to show to the server, how
   *     long a call may take
   */
  public static void main(String[] args) throws Exception {
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    // What takes longest is loaded before the database may be opened.
    Parcels.bundle(Parcels.brief("x", "x", "x"));
    Recipients recipients = TwoInstances.recipients(new Target(URI.create(args[1]), args[2]));
    say("warm");
    in.readLine();
    JumpingClock clock = new JumpingClock();
    try (HikariDataSource database =
            args[0].startsWith("jdbc:")
                ? Databases.opened(args[0])
                : Databases.file(Path.of(args[0]));
        Clockwork clockwork =
            TwoInstances.clockwork(database, recipients, clock, Duration.parse(args[3]))) {
      TreatmentArchive archive = new TreatmentArchive(database, clock);
      Deliveries deliveries =
          new Deliveries(database, archive, recipients, TwoInstances::clear, clock);
      StoringAndQueueing intake = new StoringAndQueueing(database, archive, deliveries);
      clockwork.start();
      say("ready");
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        say(done(line.split(" ", 3), deliveries, intake, clock));
      }
    }
  }

  private static String done(
      String[] told, Deliveries deliveries, StoringAndQueueing intake, JumpingClock clock) {
    switch (told[0]) {
      case "take" ->
          TwoInstances.take(
              intake,
              Parcels.file(told[2].getBytes(StandardCharsets.UTF_8)),
              Integer.parseInt(told[1]));
      case "list" -> {
        return JSON.writeValueAsString(TwoInstances.of(deliveries, told[1]));
      }
      case "retry" -> deliveries.retry(told[1]);
      default -> clock.jump(Duration.ofMillis(Long.parseLong(told[1])));
    }
    return "done";
  }

  private static void say(String what) {
    System.out.println(ANSWER + what);
    System.out.flush();
  }
}
