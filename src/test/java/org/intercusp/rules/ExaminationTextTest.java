package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.finding.Caution;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

class ExaminationTextTest {

  @Test
  void aPersonReadsFindingsByWeightThenFigures() {
    Treatment treatment =
        SampleTreatments.changed(
            """
            {"/bites/0/registeredReading": 9.5, "/bites/0/overjetInBite": -0.5,
             "/appliances/0/inclineAngle": 60, "/appliances/0/clasps/1/wire": 0.9}""");
    String text = new ExaminationText().write(new Examiner().examine(treatment, treatment.asOf()));
    List<String> lines = text.lines().toList();
    assertThat(lines.get(0)).isEqualTo("Treatment HL-T-0100 on 2026-07-20");
    assertThat(lines.get(1)).contains("May not be delivered yet");
    assertThat(lines.indexOf("ERROR (1)")).isPositive().isLessThan(lines.indexOf("WARNING (1)"));
    assertThat(lines.indexOf("WARNING (1)")).isLessThan(lines.indexOf("INFORMATION (2)"));
    assertThat(text)
        .contains("bite-share-exceeded, B1, /bites/0/registeredReading")
        .contains("73.08 %")
        .contains("Do: Register less")
        .contains("common practice, no source")
        .contains(Caution.TEXT);
    assertThat(lines)
        .anyMatch(line -> line.matches("share-of-path +B1 +0\\.731 +at most 0\\.70 +common.*"))
        .anyMatch(line -> line.matches("path +B1 +13\\.00 +mm +6 to 18 +common.*"));
  }

  private static final String HARM = "\"/reviews/3/jointSigns\": [\"locking\"]";
  private static final String ERROR = ", \"/bites/0/registeredReading\": 9.5";
  private static final String ANSWER =
      """
      , "/acceptances": [{"finding": "review-joint", "subject": "R4", "values": {"locking": 1},
       "reason": "seen the same day, appliance left out", "by": {"identifier":
       {"system": "https://harbourlane.example/id", "value": "P-07"},
       "family": "Winterbourne"}, "on": "2026-07-20"}]""";

  @Test
  void theVerdictOfHarmIsTrueWithAndWithoutErrorsAndAnAnswer() {
    assertThat(verdict(HARM))
        .isEqualTo(
            "May be delivered; URGENT: signs of harm, deliver at once; no further appliance may be"
                + " ordered yet.");
    assertThat(verdict(HARM + ANSWER))
        .isEqualTo("May be delivered; signs of harm have been answered.");
    assertThat(verdict(HARM + ERROR))
        .isEqualTo(
            "May not be delivered yet; URGENT: signs of harm, settle the errors and then deliver at"
                + " once; no further appliance may be ordered yet.");
    assertThat(verdict(HARM + ERROR + ANSWER))
        .isEqualTo(
            "May not be delivered yet; signs of harm have been answered; no further appliance may be"
                + " ordered yet.");
  }

  @Test
  void norDoesItSpeakOfHarmWhereThereIsNone() {
    String click = HARM.replace("locking", "click");
    assertThat(verdict(click)).isEqualTo("May be delivered.");
    assertThat(verdict(click + ERROR))
        .isEqualTo("May not be delivered yet; no further appliance may be ordered yet.");
  }

  private static String verdict(String changes) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new ExaminationText()
        .write(new Examiner().examine(treatment, treatment.asOf()))
        .lines()
        .toList()
        .get(1);
  }
}
