package org.intercusp.web.api;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.transaction.CannotCreateTransactionException;

/** What is no fault of ours is answered so that programs come again. */
class FaultsTest {

  private final Faults faults = new Faults(new Answers());

  @Test
  void aDatabaseThatIsAwayIsAReasonToComeAgain() {
    Exception away =
        new CannotCreateTransactionException(
            "no", new SQLTransientConnectionException("timed out"));
    ResponseEntity<byte[]> answer = answer(away);
    assertThat(answer.getStatusCode().value()).isEqualTo(503);
    assertThat(answer.getHeaders().getFirst(HttpHeaders.RETRY_AFTER)).isEqualTo("30");
    // Whether the commit came through is not known.
    assertThat(said(answer)).contains("look first whether this was kept").contains("Incident ");
  }

  @Test
  void aFaultOfOursStaysOne() {
    ResponseEntity<byte[]> answer =
        answer(new IllegalStateException(new SQLException("x", "23505")));
    assertThat(answer.getStatusCode().value()).isEqualTo(500);
    assertThat(said(answer)).contains("nothing was kept");
  }

  private ResponseEntity<byte[]> answer(Exception fault) {
    return faults.told(fault);
  }

  private static String said(ResponseEntity<byte[]> answer) {
    return new String(Objects.requireNonNull(answer.getBody()), UTF_8);
  }
}
