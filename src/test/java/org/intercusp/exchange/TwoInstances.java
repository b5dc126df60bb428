package org.intercusp.exchange;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.sql.DataSource;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.Schedule.Step.Submit;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.exchange.wire.Target;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/** Two instances of the service's deliveries in this process, on one database. */
final class TwoInstances implements Senders {

  private static @Nullable Duration deadline;

  /** Some ten times what a call takes here and now, so that a busy machine is no fault. */
  static synchronized Duration deadline() {
    Duration known = deadline;
    if (known == null) {
      known = measured();
      deadline = known;
    }
    return known;
  }

  // Never while the class is being made: the server's threads need it for their answers.
  private static Duration measured() {
    long taken = 0;
    // The last of them: the first ones load and compile.
    for (int i = 0; i < 4; i++) {
      KeptRecords records = new KeptRecords(KeptRecords.Manner.SINGLE);
      try (FaultyServer server = new FaultyServer(null)) {
        server.always(one -> true, (one, real) -> records.answer(one));
        long begin = System.nanoTime();
        Clients.within(Duration.ofMinutes(1))
            .deliver(server.target(), Parcels.bundle(Parcels.brief("d", "d", "d")), Ledger.NONE);
        taken = System.nanoTime() - begin;
      }
    }
    return Duration.ofMillis(Math.min(10_000, Math.max(2_000, taken / 100_000)));
  }

  /**
   * The real settings made a hundred times shorter or so; the proportions are what counts. Lease
   * and settling stay seconds: what a crowded machine stands still for does not shrink with them.
   */
  static DeliverySettings settings(Duration deadline) {
    return new DeliverySettings(
        4,
        3,
        Duration.ofMillis(25),
        Duration.ofSeconds(3),
        Duration.ofMillis(40),
        Duration.ofMillis(300),
        Duration.ofDays(7),
        8,
        deadline.plusMillis(4_000));
  }

  private final FaultyServer door = new FaultyServer(null);
  private final List<JumpingClock> clocks = List.of(new JumpingClock(), new JumpingClock());
  private final List<Clockwork> instances;
  private final Deliveries deliveries;
  private final StoringAndQueueing intake;
  private volatile Hospital hospital;

  TwoInstances(DataSource database) {
    Recipients recipients = recipients(door.target());
    door.always(one -> true, (one, real) -> hospital.answer(one));
    TreatmentArchive archive = new TreatmentArchive(database, clocks.get(0));
    deliveries = new Deliveries(database, archive, recipients, TwoInstances::clear, clocks.get(0));
    intake = new StoringAndQueueing(database, archive, deliveries);
    instances =
        clocks.stream().map(clock -> clockwork(database, recipients, clock, deadline())).toList();
    instances.forEach(Clockwork::start);
  }

  static Recipients recipients(Target target) {
    return new Recipients(
        List.of(new Recipient("hospital", "Hospital", target, ConsentScope.HOSPITAL)));
  }

  static Clockwork clockwork(
      DataSource database, Recipients recipients, Clock clock, Duration deadline) {
    ClientSettings usual = Clients.settings(deadline);
    ClientSettings settings =
        new ClientSettings(
            usual.connecting(),
            deadline,
            usual.answerBytes(),
            3,
            Duration.ofMillis(20),
            Duration.ofMillis(100),
            Duration.ofMillis(300),
            usual.pages());
    Clockwork.Sending sending =
        new Clockwork.Sending(
            new TreatmentArchive(database, clock),
            recipients,
            TwoInstances::clear,
            Clients.with(settings));
    return Clockwork.of(database, sending, settings(deadline), clock).build();
  }

  static Clearance.Answer clear(StoredTreatment stored, ConsentScope scope) {
    return new Clearance.Answer.Ready(Parcels.bundle(Parcels.file(stored.bytes())));
  }

  @Override
  public void serve(Hospital behind) {
    door.asked().clear();
    hospital = behind;
  }

  @Override
  public Target target() {
    return door.target();
  }

  @Override
  public Duration patience() {
    return deadline();
  }

  @Override
  public void submit(Submit submit) {
    take(intake, submit.file(), submit.version());
  }

  static void take(StoringAndQueueing intake, ObjectNode file, int version) {
    TreatmentKey key = TreatmentKey.of(Parcels.read(file));
    byte[] bytes = Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
    List<String> to = List.of("hospital");
    if (version == 1) {
      intake.store(key, bytes, to);
    } else {
      intake.replace(key, version - 1, bytes, to);
    }
  }

  @Override
  public List<Delivery> deliveries(String mark) {
    return of(deliveries, mark);
  }

  private static final int PAGE = 200;

  static List<Delivery> of(Deliveries deliveries, String mark) {
    // All of them: after a jump of the clock those of another schedule may be the newest for long.
    Map<String, Delivery> all = new LinkedHashMap<>();
    for (int offset = 0; ; offset += PAGE) {
      List<Delivery> page = deliveries.newest(offset, PAGE);
      page.stream()
          .filter(one -> one.treatment().clinic().value().endsWith("-" + mark))
          .forEach(one -> all.put(one.id(), one));
      if (page.size() < PAGE) {
        return List.copyOf(all.values());
      }
    }
  }

  @Override
  public void retry(String id) {
    deliveries.retry(id);
  }

  @Override
  public void jump(int instance, Duration offset) {
    clocks.get(instance).jump(offset);
  }

  @Override
  public void kill(String authorization) {
    throw new IllegalStateException("This process is the test's own");
  }

  @Override
  public void close() {
    instances.forEach(Clockwork::close);
    door.close();
  }
}
