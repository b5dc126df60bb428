package org.intercusp.fhir;

import java.util.List;
import java.util.function.Function;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.index.ComplexityIndex;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.analysis.index.Scored;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeScores;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;

/**
 * Index scores of a scoring: one Observation an index, told apart by method, traits unweighted.
 * What no examiner gave is computed from the findings and says so by {@code derivedFrom}.
 */
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

  private static final Panel<String> DHC =
      new Panel<String>(Role.DHC, Codes.OCCLUSAL_INDEX)
          .value("dhc", Kind.codeOf(LocalSystem.DENTAL_HEALTH_COMPONENT), grade -> grade);

  private static final Panel<Icon> ICON =
      new Panel<Icon>(Role.ICON, Codes.OCCLUSAL_INDEX)
          .part("aesthetic", code("icon-aesthetic"), SCORE, Icon::aesthetic)
          .part("crowdingSpacing", code("icon-crowding-spacing"), SCORE, Icon::crowdingSpacing)
          .part("crossbite", code("icon-crossbite"), SCORE, Icon::crossbite)
          .part("vertical", code("icon-vertical"), SCORE, Icon::vertical)
          .part("buccalRight", code("icon-buccal-right"), SCORE, Icon::buccalRight)
          .part("buccalLeft", code("icon-buccal-left"), SCORE, Icon::buccalLeft)
          .computed(code("icon-weighted"), SCORE, ComplexityIndex::score);

  private static final List<Index<?>> INDICES =
      List.of(
          new Index<>(PAR, Codes.BY_PAR, OutcomeScores::par, Scored::par),
          new Index<>(DHC, Codes.BY_DHC, OutcomeScores::dhc, Scored::dhc),
          new Index<>(ICON, Codes.BY_ICON, OutcomeScores::icon, Scored::icon));

  private static Concept code(String code) {
    return Codes.measurement(code);
  }

  void toFhir(Outcome outcome, Observation scoring, Writing writing) {
    INDICES.forEach(index -> index.toFhir(outcome, scoring, writing));
  }

  void fromFhir(Observation member, Draft outcome, Reading reading) {
    if (!reading.is(Codes.OCCLUSAL_INDEX, member.getCode()) || isComputed(member, reading)) {
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

  /** The file has the findings it was computed from and computes it anew. */
  private static boolean isComputed(Observation member, Reading reading) {
    return member.getDerivedFrom().stream()
        .map(from -> reading.resolve(from, Observation.class))
        .anyMatch(from -> from != null && reading.is(OutcomeFindingsMapper.CODE, from.getCode()));
  }

  /** As an examiner gave it, or else as the findings of the scoring have it. */
  private record Index<T>(
      Panel<T> panel,
      Concept method,
      Panel.Getter<OutcomeScores, T> given,
      Function<Scored, Reckoned<T>> computed) {

    void toFhir(Outcome outcome, Observation scoring, Writing writing) {
      OutcomeScores scores = outcome.scores();
      T examiners = scores == null ? null : given.of(scores);
      if (examiners != null) {
        written(examiners, outcome, scoring, writing);
      } else if (outcome.findings() != null) {
        computed
            .apply(Scored.of(outcome))
            .result()
            .map(score -> written(score, outcome, scoring, writing))
            .ifPresent(
                index ->
                    index.addDerivedFrom(
                        writing.to("Observation", Role.OUTCOME_FINDINGS, outcome.id())));
      }
    }

    private Observation written(T score, Outcome outcome, Observation scoring, Writing writing) {
      Observation resource = OutcomeMapper.observation(Codes.OCCLUSAL_INDEX, outcome, writing);
      resource.setMethod(method.concept(writing.canonicals()));
      panel.write(score, resource, writing.canonicals());
      writing.add(resource, panel.role(), outcome.id());
      scoring.addHasMember(writing.to("Observation", panel.role(), outcome.id()));
      return resource;
    }
  }
}
