package org.intercusp.web.api;

import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.content;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.hamcrest.Matchers;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.audit.AuditTrail;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.Reports;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.setup.MockMvcBuilders;

/** {@code /registry/report} answers in the form asked for. */
class ReportDoorTest {

  @TempDir static Path cases;
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-09-01T00:00:00Z"), ZoneOffset.UTC);
  private static MockMvc door;

  @BeforeAll
  static void open() throws Exception {
    OutcomeRows.write(cases, 300, 4);
    door = MockMvcBuilders.standaloneSetup(door(cases)).build();
  }

  private static ReportDoor door(Path rows) {
    AuditTrail trail = new AuditTrail(Databases.H2.fresh(), CurrentCaller.withoutLogin(), CLOCK);
    return new ReportDoor(Reports.over(rows), Canonicals.RESERVED, new RegistryDeeds(trail), CLOCK);
  }

  @Test
  void answersInTheFormAskedFor() throws Exception {
    door.perform(get("/registry/report").accept("application/json"))
        .andExpect(status().isOk())
        .andExpect(content().contentTypeCompatibleWith("application/json"))
        .andExpect(content().string(Matchers.containsString("\"cutOff\" : \"2026-09-01\"")));
    door.perform(get("/registry/report").accept("text/csv").queryParam("cut-off", "2025-12-31"))
        .andExpect(status().isOk())
        .andExpect(content().string(Matchers.containsString(",2025-12-31,")));
    door.perform(get("/registry/report").accept("application/fhir+json"))
        .andExpect(status().isOk())
        .andExpect(content().string(Matchers.containsString("\"MeasureReport\"")));
  }

  @Test
  void nobodyMayAskForSmallerCells() throws Exception {
    door.perform(
            get("/registry/report")
                .accept("application/json")
                .queryParam("threshold", "1")
                .queryParam("hide-below", "1"))
        .andExpect(content().string(Matchers.containsString("\"threshold\" : 5")));
  }

  @Test
  void anEmptyRegistryHasNoReport() throws Exception {
    MockMvcBuilders.standaloneSetup(door(cases.resolve("none")))
        .setControllerAdvice(new Faults(new Answers()))
        .build()
        .perform(get("/registry/report").accept("text/csv"))
        .andExpect(status().isNotFound())
        .andExpect(content().contentType("application/problem+json"))
        .andExpect(content().string(Matchers.containsString("holds no outcomes")));
  }
}
