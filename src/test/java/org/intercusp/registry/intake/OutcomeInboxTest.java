package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.intercusp.registry.store.StoreFault;
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

  @Test
  void aLoadEndsOnlyWhenItsEndIsOnRecord() throws IOException {
    Registry registry = new Registry(folder);
    List<LoadStatus> told = new ArrayList<>();
    SubmissionWitness forgetful =
        new SubmissionWitness() {
          @Override
          public void received(String id) {}

          @Override
          public void ending(LoadStatus end) {
            told.add(end);
            if (told.size() == 1) {
              throw new IllegalStateException("the trail is away");
            }
          }
        };
    OutcomeIntake intake = new OutcomeIntake(registry.place, Registry.CLOCK, forgetful);
    String id = "h-00000000-0000-4000-8000-000000000001";
    Files.createDirectories(registry.place.inbox());
    Files.writeString(registry.place.inbox().resolve(id), record + "\n{}\n");

    assertThatThrownBy(() -> intake.loadInbox(id)).isInstanceOf(StoreFault.class);
    Path journal = LoadStatus.file(registry.place.loads(), id);
    assertThat(LoadStatus.read(journal).orElseThrow().ended()).isFalse();
    LoadStatus end = intake.loadInbox(id);

    assertThat(end.state()).isEqualTo(LoadStatus.State.DONE);
    assertThat(end.counts().fresh()).isEqualTo(1);
    assertThat(LoadStatus.read(journal)).hasValue(end);
    assertThat(told).hasSize(2).allMatch(one -> one.counts().equals(end.counts()));
  }

  @Test
  void whatCannotBeRecordedIsNotTaken() throws IOException {
    Registry registry = new Registry(folder);
    SubmissionWitness none =
        new SubmissionWitness() {
          @Override
          public void received(String id) {
            throw new IllegalStateException("the trail is away");
          }

          @Override
          public void ending(LoadStatus end) {}
        };
    OutcomeIntake intake = new OutcomeIntake(registry.place, Registry.CLOCK, none);
    try (OutcomeInbox inbox = new OutcomeInbox(intake, 10_000)) {
      ByteArrayInputStream body = new ByteArrayInputStream(record.getBytes(UTF_8));
      assertThatThrownBy(() -> inbox.receive(body, Senders.ANYBODY))
          .isInstanceOf(IllegalStateException.class);
    }
    assertThat(registry.place.inbox()).isEmptyDirectory();
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
