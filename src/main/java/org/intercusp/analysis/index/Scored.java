package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToIntFunction;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeScores;
import org.jspecify.annotations.Nullable;

/**
 * The components of an outcome, computed from its findings or, where there are none, as the
 * examiner scored them; absent where there is neither. An arch with a contact that was not measured
 * keeps the examiner's score too.
 */
public record Scored(
    Reckoned<OutcomeScores.Par> par,
    Reckoned<String> dhc,
    Reckoned<OutcomeScores.Icon> icon,
    Reckoned<Integer> aesthetic,
    Origin origin) {

  public static Scored of(Outcome outcome) {
    return of(outcome, BigDecimal.ZERO);
  }

  /** As if every reading in millimetres were larger by so much; given scores stay as they are. */
  static Scored of(Outcome outcome, BigDecimal more) {
    OutcomeFindings findings = outcome.findings();
    OutcomeScores scores = outcome.scores();
    if (findings != null) {
      return fromFindings(findings, scores, more);
    }
    OutcomeScores.Icon icon = scores == null ? null : scores.icon();
    return new Scored(
        given(scores == null ? null : scores.par(), "PAR"),
        given(scores == null ? null : scores.dhc(), "dental health component"),
        given(icon, "ICON"),
        given(icon == null ? null : icon.aesthetic(), "aesthetic component"),
        Origin.SCORES);
  }

  private static Scored fromFindings(
      OutcomeFindings findings, @Nullable OutcomeScores given, BigDecimal more) {
    return new Scored(
        PeerAssessment.components(findings, given == null ? null : given.par(), more),
        Reckoned.known(DentalHealth.code(findings, more)),
        Reckoned.known(ComplexityIndex.components(findings, more)),
        Reckoned.known(findings.aestheticComponent()),
        Origin.FINDINGS);
  }

  private static <T> Reckoned<T> given(@Nullable T score, String name) {
    return score == null
        ? Reckoned.lacking("neither findings nor a " + name + " score are given")
        : Reckoned.known(score);
  }

  /** Weighted peer assessment rating in points. */
  public Reckoned<Integer> par(ParWeighting weighting) {
    return par.map(weighting::score);
  }

  /**
   * Where the scores an examiner gave differ from those computed from the findings; empty when one
   * of the two is not given.
   */
  public static List<Difference> differences(Outcome outcome) {
    OutcomeFindings findings = outcome.findings();
    OutcomeScores given = outcome.scores();
    if (findings == null || given == null) {
      return List.of();
    }
    Scored computed = fromFindings(findings, given, BigDecimal.ZERO);
    List<Difference> differences = new ArrayList<>();
    OutcomeScores.Par par = given.par();
    if (par != null) {
      computed.par.result().ifPresent(own -> compare(PAR, own, par, differences));
    }
    String dhc = given.dhc();
    String ownDhc = computed.dhc.result().orElseThrow();
    if (dhc != null && !dhc.equals(ownDhc)) {
      differences.add(new Difference(List.of("dhc"), dhc, ownDhc, DentalHealth.SOURCE));
    }
    OutcomeScores.Icon icon = given.icon();
    if (icon != null) {
      compare(ICON, computed.icon.result().orElseThrow(), icon, differences);
    }
    return List.copyOf(differences);
  }

  /** Components of the peer assessment rating that differ from those of another, in words. */
  Reckoned<List<String>> differingPar(Scored other) {
    return par.flatMap(own -> other.par.map(theirs -> differing(PAR, own, theirs)));
  }

  /** Components of ICON that differ from those of another, in words. */
  Reckoned<List<String>> differingIcon(Scored other) {
    return icon.flatMap(own -> other.icon.map(theirs -> differing(ICON, own, theirs)));
  }

  private static <T> List<String> differing(Components<T> components, T own, T other) {
    return components.all().stream()
        .filter(each -> each.read().applyAsInt(own) != each.read().applyAsInt(other))
        .map(Component::shown)
        .toList();
  }

  private static <T> void compare(
      Components<T> components, T own, T given, List<Difference> differences) {
    for (Component<T> component : components.all()) {
      int computed = component.read().applyAsInt(own);
      int scored = component.read().applyAsInt(given);
      if (computed != scored) {
        differences.add(
            new Difference(
                List.of(components.member(), component.member()),
                Integer.toString(scored),
                Integer.toString(computed),
                components.source()));
      }
    }
  }

  private static final Components<OutcomeScores.Par> PAR =
      new Components<>(
          "par",
          PeerAssessment.SOURCE,
          List.of(
              new Component<>("upperAnterior", OutcomeScores.Par::upperAnterior),
              new Component<>("lowerAnterior", OutcomeScores.Par::lowerAnterior),
              new Component<>("buccalRight", OutcomeScores.Par::buccalRight),
              new Component<>("buccalLeft", OutcomeScores.Par::buccalLeft),
              new Component<>("overjet", OutcomeScores.Par::overjet),
              new Component<>("overbite", OutcomeScores.Par::overbite),
              new Component<>("centreline", OutcomeScores.Par::centreline)));

  private static final Components<OutcomeScores.Icon> ICON =
      new Components<>(
          "icon",
          ComplexityIndex.SOURCE,
          List.of(
              new Component<>("aesthetic", OutcomeScores.Icon::aesthetic),
              new Component<>("crowdingSpacing", OutcomeScores.Icon::crowdingSpacing),
              new Component<>("crossbite", OutcomeScores.Icon::crossbite),
              new Component<>("vertical", OutcomeScores.Icon::vertical),
              new Component<>("buccalRight", OutcomeScores.Icon::buccalRight),
              new Component<>("buccalLeft", OutcomeScores.Icon::buccalLeft)));

  private record Components<T>(String member, Source source, List<Component<T>> all) {}

  private record Component<T>(String member, ToIntFunction<T> read) {
    String shown() {
      return member.replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One score that differs.
   *
   * @param source of the index it is in
   * @param members JSON members below {@code scores}: {@code par, overjet} or {@code dhc}
   */
  public record Difference(List<String> members, String given, String computed, Source source) {
    public Difference {
      members = List.copyOf(members);
    }
  }

  /** Where components come from. */
  public enum Origin {
    FINDINGS("computed from the findings"),
    SCORES("as the examiner scored");

    private final String shown;

    Origin(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }
  }
}
