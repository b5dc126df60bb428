package org.intercusp.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import org.junit.jupiter.api.Test;

class CurrentCallerTest {

  private static final Clinic A = new Clinic("https://clinics.example", "a");
  private static final Clinic B = new Clinic("https://clinics.example", "b");
  private static final Caller OF_A =
      new Caller("a", "a", Caller.Kind.PROGRAM, new Reach.Clinics(Set.of(A)), Scopes.ALL);

  @Test
  void wherePeopleLogInNobodyReachesNothing() {
    CurrentCaller callers = CurrentCaller.withLogin();
    assertThatThrownBy(callers::caller).isInstanceOf(NoCaller.class);
    assertThatThrownBy(() -> callers.condition("t")).isInstanceOf(NoCaller.class);
  }

  @Test
  void aBindingEndsWithItsWorkAndIsNotHandedToOtherThreads()
      throws ExecutionException, InterruptedException {
    CurrentCaller callers = CurrentCaller.withLogin();
    callers.as(
        OF_A,
        () -> {
          assertThat(callers.caller()).isEqualTo(OF_A);
          Caller worker = callers.as(Caller.worker("w"), callers::caller);
          assertThat(worker.kind()).isEqualTo(Caller.Kind.WORKER);
          assertThat(callers.caller()).isEqualTo(OF_A);
          assertThatThrownBy(() -> CompletableFuture.supplyAsync(callers::caller).get())
              .hasCauseInstanceOf(NoCaller.class);
          return "";
        });
    assertThatThrownBy(callers::caller).isInstanceOf(NoCaller.class);
  }

  @Test
  void theConditionNamesTheClinicsInReachOnly() {
    Condition none = new Reach.Clinics(Set.of()).condition("t");
    assertThat(none.sql()).isEqualTo("1 = 0");
    Condition both = new Reach.Clinics(Set.of(B, A)).condition("t");
    assertThat(both.params()).containsEntry("reachClinic0", "a").containsEntry("reachClinic1", "b");
    assertThat(both.sql()).contains("t.clinic_system = :reachSystem0", " or ");
  }

  @Test
  void whatIsWrittenForAnotherClinicIsRefused() {
    CurrentCaller callers = CurrentCaller.withLogin();
    assertThatThrownBy(
            () ->
                callers.as(
                    OF_A,
                    () -> {
                      callers.mustReach(A);
                      callers.mustReach(B);
                      return "";
                    }))
        .isInstanceOf(OutOfReach.class);
  }

  @Test
  void aTraceIsReadOnlyInItsForm() {
    String header = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01";
    TraceContext read = TraceContext.read(header).orElseThrow();
    assertThat(read.header()).isEqualTo(header);
    assertThat(read.next().trace()).isEqualTo(read.trace());
    assertThat(read.next().span()).isNotEqualTo(read.span());
    assertThat(TraceContext.read("00-" + "0".repeat(32) + "-00f067aa0ba902b7-01")).isEmpty();
    assertThat(TraceContext.read("00-4bf92f3577b34da6a3ce929d0e0e4736-" + "0".repeat(16) + "-01"))
        .isEmpty();
    assertThat(TraceContext.read("John Smith")).isEmpty();
    assertThat(TraceContext.read(null)).isEmpty();
    assertThat(TraceContext.read(TraceContext.fresh().header())).isPresent();
  }

  @Test
  void aClinicsValueMayHoldABar() {
    assertThat(Clinic.parse("urn:of|two parts|7")).isEqualTo(new Clinic("urn:of", "two parts|7"));
    assertThatThrownBy(() -> Clinic.parse("|7")).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Clinic.parse("harbour-lane"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
