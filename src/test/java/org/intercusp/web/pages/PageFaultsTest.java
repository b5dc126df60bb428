package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.SQLTransientConnectionException;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.servlet.ModelAndView;

/** A browser is told what a program is told, with the same status and headers, on a page. */
class PageFaultsTest {

  private final PageFaults faults = new PageFaults();
  private final MockHttpServletResponse response = new MockHttpServletResponse();

  @Test
  void aDatabaseThatIsAwayIsToldOnAPage() {
    Exception away =
        new CannotCreateTransactionException(
            "no", new SQLTransientConnectionException("timed out"));
    assertThat(said(503, away)).contains("look first whether this was kept", "Incident ");
    assertThat(response.getHeader("Retry-After")).isEqualTo("30");
  }

  @Test
  void aFaultOfOursIsHiddenBehindItsIncident() {
    assertThat(said(500, new IllegalStateException("Kowalczyk")))
        .contains("The service failed; nothing was kept. Incident ")
        .doesNotContain("Kowalczyk");
  }

  @Test
  void aFaultOfTheCallerKeepsItsWords() {
    assertThat(said(400, new MissingServletRequestParameterException("from", "int")))
        .isEqualTo("from must be given.");
  }

  @Test
  void anAddressThatFormsAreSentToShowsTheWayBack() {
    Exception fault = new HttpRequestMethodNotSupportedException("PUT", Set.of("GET"));
    ModelAndView page = faults.otherMethod(fault, response);
    assertThat(Objects.requireNonNull(page.getStatus()).value()).isEqualTo(405);
    assertThat(response.getHeader("Allow")).isEqualTo("GET, HEAD");
  }

  private String said(int status, Exception fault) {
    ModelAndView page = faults.told(fault, response);
    assertThat(page.getViewName()).isEqualTo("fault");
    assertThat(Objects.requireNonNull(page.getStatus()).value()).isEqualTo(status);
    return Objects.requireNonNull(page.getModel().get("words")).toString();
  }
}
