package org.intercusp.web.pages.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Map;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;

/**
 * The record speaks of the day of its last entry: a year mistyped would carry the whole record
 * there, with ages, overdue reviews and the time line, and nothing on a page would bring it back.
 */
class NotYetTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 28);
  private static final Treatment STORED = SampleTreatments.changed("{\"/asOf\": \"2026-07-20\"}");

  @Test
  void anEntryOfADayThatHasNotComeIsRefusedAtItsDay() {
    assertThat(faults(STORED, "2029-11-28").get("date"))
        .isEqualTo("2029-11-28 is still to come: today is 2026-11-28.");
    assertThat(faults(STORED, "2026-11-29")).containsKey("date");
    assertThat(faults(STORED, "2026-11-28")).doesNotContainKey("date");
    assertThat(faults(STORED, "2029-02-30").get("date")).doesNotContain("still to come");
  }

  @Test
  void aRecordThatSpeaksOfALaterDayTakesEntriesUpToIt() {
    Treatment ahead = SampleTreatments.changed("{\"/asOf\": \"2027-01-10\"}");
    assertThat(faults(ahead, "2027-01-10")).doesNotContainKey("date");
    assertThat(faults(ahead, "2027-01-11").get("date"))
        .isEqualTo("2027-01-11 is still to come: the record speaks of 2027-01-10.");
  }

  private static Map<String, String> faults(Treatment stored, String date) {
    Sheet sheet = ReviewSheet.of(stored, TODAY);
    Typed typed = Typed.proposed(Map.of("date", date));
    EntryText text = EntryText.of(sheet, typed, TODAY, stored.asOf());
    String file = new String(new TreatmentWriter().write(stored), StandardCharsets.UTF_8);
    return Trial.of(Placed.tree(file), sheet, text).faults();
  }
}
