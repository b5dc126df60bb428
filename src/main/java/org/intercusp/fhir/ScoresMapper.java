package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.intercusp.analysis.index.ComplexityIndex;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeScores;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.jspecify.annotations.Nullable;

/** Index scores of a scoring: one Observation an index, told apart by method, traits unweighted. */
final class ScoresMapper {

  private static final Kind<Integer> SCORE = Kind.count(Unit.SCORE);

  private static final Panel<Par> PAR =
      new Panel<Par>(Role.PAR, Codes.OCCLUSAL_INDEX)
          .part("upperAnterior", code("par-upper-anterior"), SCORE, Par::upperAnterior)
          .part("lowerAnterior", code("par-lower-anterior"), SCORE, Par::lowerAnterior)
          .part("buccalRight", code("par-buccal-right"), SCORE, Par::buccalRight)
          .part("buccalLeft", code("par-buccal-left"), SCORE, Par::buccalLeft)
          .part("overjet", code("par-overjet"), SCORE, Par::overjet)
          .part("overbite", code("par-overbite"), SCORE, Par::overbite)
          .part("centreline", code("par-centreline"), SCORE, Par::centreline)
          .computed(code("par-weighted-uk"), SCORE, ParWeighting.UK::score)
          .computed(code("par-weighted-us"), SCORE, ParWeighting.US::score);

  private static final Panel<OutcomeScores> DHC =
      new Panel<OutcomeScores>(Role.DHC, Codes.OCCLUSAL_INDEX)
          .value("dhc", Kind.codeOf(LocalSystem.DENTAL_HEALTH_COMPONENT), OutcomeScores::dhc);

  private static final Panel<Icon> ICON =
      new Panel<Icon>(Role.ICON, Codes.OCCLUSAL_INDEX)
          .part("aesthetic", code("icon-aesthetic"), SCORE, Icon::aesthetic)
          .part("crowdingSpacing", code("icon-crowding-spacing"), SCORE, Icon::crowdingSpacing)
          .part("crossbite", code("icon-crossbite"), SCORE, Icon::crossbite)
          .part("vertical", code("icon-vertical"), SCORE, Icon::vertical)
          .part("buccalRight", code("icon-buccal-right"), SCORE, Icon::buccalRight)
          .part("buccalLeft", code("icon-buccal-left"), SCORE, Icon::buccalLeft)
          .computed(code("icon-weighted"), SCORE, ComplexityIndex::score);

  private static Concept code(String code) {
    return Codes.measurement(code);
  }

  void toFhir(Outcome outcome, Observation scoring, Writing writing) {
    OutcomeScores scores = outcome.scores();
    if (scores != null) {
      index(PAR, scores.par(), Codes.BY_PAR, outcome, scoring, writing);
      index(DHC, scores.dhc() == null ? null : scores, Codes.BY_DHC, outcome, scoring, writing);
      index(ICON, scores.icon(), Codes.BY_ICON, outcome, scoring, writing);
    }
  }

  private static <T> void index(
      Panel<T> panel,
      @Nullable T scores,
      Concept method,
      Outcome outcome,
      Observation scoring,
      Writing writing) {
    if (scores == null) {
      return;
    }
    Observation resource = OutcomeMapper.observation(Codes.OCCLUSAL_INDEX, outcome, writing);
    resource.setMethod(method.concept(writing.canonicals()));
    panel.write(scores, resource, writing.canonicals());
    writing.add(resource, panel.role(), outcome.id());
    scoring.addHasMember(writing.to("Observation", panel.role(), outcome.id()));
  }

  void fromFhir(Observation member, Draft outcome, Reading reading) {
    if (!reading.is(Codes.OCCLUSAL_INDEX, member.getCode())) {
      return;
    }
    String path = reading.path(member);
    Draft scores = outcome.object("scores", path);
    if (reading.is(Codes.BY_PAR, member.getMethod())) {
      PAR.read(member, scores.object("par", path), reading);
    } else if (reading.is(Codes.BY_DHC, member.getMethod())) {
      DHC.read(member, scores, reading);
    } else if (reading.is(Codes.BY_ICON, member.getMethod())) {
      ICON.read(member, scores.object("icon", path), reading);
    }
  }
}
