package org.intercusp.analysis.index;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.measure.ReadingError;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;

/**
 * An arch with a contact nobody measured has no score from the findings (Eur J Orthod
 * 1992;14:125-139, tables from memory); the examiner's own score of it stands where it is given.
 */
class ContactNotMeasuredTest {

  /** Overjet 8: 3 points; the lower arch is the examiner's 4. Weighted: 6 x 3 + 4, and 5 x 3. */
  @Test
  void theExaminersScoreOfTheArchStands() {
    Reread reread = Reread.of(scored(4, 3), ReadingError.RULER);
    assertThat(reread.par(ParWeighting.UK).result()).contains(new ScoreRange(22, 22, 22));
    assertThat(reread.par(ParWeighting.US).result()).contains(new ScoreRange(15, 15, 15));
    assertThat(reread.borderlinePar().result()).contains(List.of());
  }

  @Test
  void theFigureSaysWhoseItIs() {
    List<Figure> figures = IndexFigures.figures(scored(4, 3));
    assertThat(named(figures, "par-uk").note())
        .isEqualTo("computed from the findings, lower anterior as the examiner scored");
    assertThat(named(figures, "icon").note()).isEqualTo("computed from the findings");
  }

  @Test
  void whatWasMeasuredIsStillHeldAgainstTheGivenScores() {
    assertThat(Scored.differences(scored(4, 3))).isEmpty();
    assertThat(Scored.differences(scored(4, 2)))
        .singleElement()
        .isEqualTo(
            new Scored.Difference(List.of("par", "overjet"), "2", "3", PeerAssessment.SOURCE));
  }

  @Test
  void withoutAGivenScoreThereIsStillNone() {
    Outcome outcome = Mouth.outcome("o", Phase.START, mouth().findings(), null);
    assertThat(Scored.of(outcome).par().reason())
        .isEqualTo("lower contact 2 from the patient's right is not measured");
  }

  private static Outcome scored(int lowerAnterior, int overjet) {
    OutcomeScores.Par par = new OutcomeScores.Par(0, lowerAnterior, 0, 0, overjet, 0, 0);
    return Mouth.outcome("o", Phase.START, mouth().findings(), new OutcomeScores(par, null, null));
  }

  private static Mouth mouth() {
    Mouth mouth = new Mouth();
    mouth.overjet = "8";
    List<Contact> lower = new ArrayList<>(Mouth.displaced("0", "0", "0", "0", "0"));
    lower.set(1, new Contact.Unmeasured());
    mouth.lower = lower;
    return mouth;
  }

  private static Figure named(List<Figure> figures, String name) {
    return figures.stream().filter(each -> each.name().equals(name)).findFirst().orElseThrow();
  }
}
