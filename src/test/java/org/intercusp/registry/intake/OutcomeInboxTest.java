package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A submission that is nothing but faults, or breaks what loads it, comes to an end. */
class OutcomeInboxTest {

  @TempDir Path folder;

  private final String record = Registry.generated(1, 5).get(0);

  @Test
  void aSubmissionOfFaultsAloneEndsEarlyAndItsCountsAddUp() throws IOException {
    Registry registry = new Registry(folder);
    try (OutcomeInbox inbox = new OutcomeInbox(registry.intake, 10_000_000)) {
      LoadStatus end = ended(registry, inbox, record + "\n" + "{}\n".repeat(100_000));

      assertThat(end.state()).isEqualTo(LoadStatus.State.FAILED);
      assertThat(end.json().path("reason").asString()).isEqualTo("too-many-refused");
      assertThat(end.counts().fresh()).isEqualTo(1);
      assertThat(end.counts().refused()).isBetween(10_001L, 20_000L);
      assertThat(end.lines()).isEqualTo(end.counts().read());
      assertThat(LoadStatus.read(LoadStatus.file(registry.place.loads(), end.id()))).hasValue(end);
      assertThat(inbox.refusals(end.id(), 150)).hasSize(150);
      LoadStatus next = ended(registry, inbox, record);
      assertThat(next.state()).isEqualTo(LoadStatus.State.DONE);
      assertThat(next.counts().same()).isEqualTo(1);
    }
  }

  @Test
  void whatBreaksTheLoadIsNotTriedAgain() throws IOException {
    Registry registry = new Registry(folder);
    AtomicInteger asked = new AtomicInteger();
    OutcomeIntake breaks = new OutcomeIntake(registry.place, broken(asked));
    try (OutcomeInbox inbox = new OutcomeInbox(breaks, 10_000)) {
      LoadStatus end = ended(registry, inbox, record);

      assertThat(end.state()).isEqualTo(LoadStatus.State.FAILED);
      assertThat(end.json().path("reason").asString()).isEqualTo("unloadable");
    }
    try (OutcomeInbox again = new OutcomeInbox(registry.intake, 10_000)) {
      assertThat(ended(registry, again, record).counts().fresh()).isEqualTo(1);
    }
  }

  /** Fails when it is asked first, which is in the load. */
  private static Clock broken(AtomicInteger asked) {
    return new Clock() {
      @Override
      public ZoneId getZone() {
        return Registry.CLOCK.getZone();
      }

      @Override
      public Clock withZone(ZoneId zone) {
        return this;
      }

      @Override
      public Instant instant() {
        if (asked.getAndIncrement() == 0) {
          throw new OutOfMemoryError("of a test");
        }
        return Registry.CLOCK.instant();
      }
    };
  }

  private static LoadStatus ended(Registry registry, OutcomeInbox inbox, String text)
      throws IOException {
    ByteArrayInputStream body = new ByteArrayInputStream(text.getBytes(UTF_8));
    OutcomeInbox.Receipt receipt = inbox.receive(body, Senders.ANYBODY);
    String id = ((OutcomeInbox.Receipt.Received) receipt).id();
    Path waiting = registry.place.inbox().resolve(id);
    Instant end = Instant.now().plus(Duration.ofMinutes(2));
    while (Files.exists(waiting)) {
      assertThat(Instant.now()).isBefore(end);
      LockSupport.parkNanos(20_000_000);
    }
    return inbox.status(id, Senders.ANYBODY).orElseThrow();
  }
}
