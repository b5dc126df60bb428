package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.finding.Finding;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every day of something done is held against the day the record speaks of, 2026-07-20. */
class DateOrderTest {

  private static final String EXAMINER =
      "\"examiner\": {\"system\": \"https://harbourlane.example/id/practitioner\", \"value\": \"P-07\"}";

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          /patient/consent/recordedOn | "/patient/consent/recordedOn": DAY
          /patient/consent/withdrawnOn | "/patient/consent/withdrawnOn": DAY
          /diagnosis/assessedOn | "/diagnosis/assessedOn": DAY
          /bites/0/recordedOn | "/bites/0/recordedOn": DAY
          /appliances/0/orderedOn | "/appliances/0/orderedOn": DAY
          /appliances/0/fittedOn | "/appliances/0/fittedOn": DAY
          /reviews/3/date | "/reviews/3/date": DAY
          /reviews/3/wearMeasured/to | "/reviews/3/wearMeasured": {"hoursPerDay": 10, "from": "2026-06-01", "to": DAY}
          /reviews/3/wearMeasured/from | "/reviews/3/wearMeasured": {"hoursPerDay": 10, "from": DAY, "to": DAY}
          /reviews/3/adverseEvents/1/onsetOn | "/reviews/3/adverseEvents": [ULCER"2026-07-01"}, ULCERDAY}]
          /films/0/takenOn | "/films": [{"id": "F1", "takenOn": DAY, "jaw": "habitual", "landmarks": {"S": [0, 0]}}]
          /models/0/takenOn | "/models": [{"id": "M1", "takenOn": DAY, "source": "scan", "toothWidths": {"11": 8}}]
          /outcomes/0/date | "/outcomes": [{"id": "O1", "date": DAY, "phase": "end", "source": "mouth", EXAMINER, "scores": {"dhc": "1"}}]
          /completion/decidedOn | "/completion": {"status": "completed", "decidedOn": DAY, "lastAttendedOn": "2026-07-13"}
          /completion/lastAttendedOn | "/completion": {"status": "completed", "decidedOn": "2026-07-13", "lastAttendedOn": DAY}
          /acceptances/0/on | "/acceptances": [{"finding": "bite-step-large", "subject": "B1", "values": {}, "reason": "held well", "by": {"identifier": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"}, "family": "Winterbourne"}, "on": DAY}]
          """)
  void nothingIsDoneLaterThanTheDayItIs(String pointer, String changes) {
    assertThat(later(changes, "2026-07-21"))
        .extracting(finding -> finding.pointer().text())
        .contains(pointer);
    assertThat(later(changes, "2026-07-20")).isEmpty();
  }

  /** birth < assessed <= bite <= ordered <= fitted <= reviews; start outcome <= fitted. */
  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          | "/patient/birthDate": "2026-01-11"
          /diagnosis/assessedOn | "/patient/birthDate": "2026-01-12"
          | "/diagnosis/assessedOn": "2026-02-02"
          /bites/0/recordedOn | "/diagnosis/assessedOn": "2026-02-03"
          | "/bites/0/recordedOn": "2026-02-03"
          /appliances/0/orderedOn | "/bites/0/recordedOn": "2026-02-04"
          | "/appliances/0/orderedOn": "2026-02-24"
          /appliances/0/fittedOn | "/appliances/0/orderedOn": "2026-02-25"
          | "/reviews/0/date": "2026-02-24"
          /reviews/0/date | "/reviews/0/date": "2026-02-23"
          | "/reviews/3/wearMeasured": {"hoursPerDay": 10, "from": "2026-06-01", "to": "2026-06-01"}
          /reviews/3/wearMeasured/to | "/reviews/3/wearMeasured": {"hoursPerDay": 10, "from": "2026-06-02", "to": "2026-06-01"}
          | "/outcomes": [{"id": "O1", "date": "2026-02-24", "phase": "start", START]
          /outcomes/0/date | "/outcomes": [{"id": "O1", "date": "2026-02-25", "phase": "start", START]
          | "/outcomes": [{"id": "O1", "date": "2026-02-25", "phase": "end-active", START]
          | "/appliances/0/fittedOn": null, "/reviews": [], "/outcomes": [{"id": "O1", "date": "2026-02-25", "phase": "start", START]
          """)
  void oneThingFollowsAnother(String pointer, String changes) {
    String spelled =
        changes.replace(
            "START", "\"source\": \"mouth\", " + EXAMINER + ", \"scores\": {\"dhc\": \"1\"}}");
    assertThat(FoundIn.changes("date-order", spelled))
        .extracting(finding -> finding.pointer().text())
        .isEqualTo(pointer == null ? List.of() : List.of(pointer));
  }

  private static List<Finding> later(String changes, String day) {
    String ulcer =
        "{\"code\": \"ulcer\", \"severity\": \"mild\", \"serious\": false, \"suspectedAppliance\": true, \"onsetOn\": ";
    String spelled =
        changes
            .replace("ULCER", ulcer)
            .replace("EXAMINER", EXAMINER)
            .replace("DAY", "\"" + day + "\"");
    return FoundIn.changes("date-order", spelled).stream()
        .filter(finding -> finding.message().contains("lies after the day it is"))
        .toList();
  }
}
