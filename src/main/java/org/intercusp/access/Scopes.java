package org.intercusp.access;

import java.util.Collection;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a caller may do: SMART v2 scopes ({@code system/} and {@code user/}, a resource type or
 * {@code *}, letters of {@code cruds} in that order; SMART App Launch 2.2, Scopes for requesting
 * FHIR Resources). Every other word grants nothing: a {@code patient/} scope, since there is no
 * launch that names the patient; one narrowed by a query, since it asks for less than would be
 * given; the words of version 1.
 */
public final class Scopes {

  private static final String ANY = "*";
  private static final Pattern SCOPE =
      Pattern.compile("(?:system|user)/([A-Z][A-Za-z]{0,63}|\\*)\\.(?=[cruds])(c?r?u?d?s?)");

  /** Everything. */
  public static final Scopes ALL = of(Set.of("system/*.cruds"));

  /** Nothing. */
  public static final Scopes NONE = of(Set.of());

  private final Map<Interaction, Set<String>> types = new EnumMap<>(Interaction.class);

  private Scopes(Collection<String> words) {
    words.forEach(this::add);
  }

  /** The scopes of these words. */
  public static Scopes of(Collection<String> words) {
    return new Scopes(words);
  }

  private void add(String word) {
    Matcher scope = SCOPE.matcher(word);
    if (scope.matches()) {
      for (Interaction interaction : Interaction.values()) {
        if (scope.group(2).indexOf(interaction.letter()) >= 0) {
          types.computeIfAbsent(interaction, one -> new HashSet<>()).add(scope.group(1));
        }
      }
    }
  }

  /**
   * Whether an interaction with resources of a type is granted.
   *
   * @param type a FHIR resource type, or {@code *} where it must be granted for all of them
   */
  public boolean permit(String type, Interaction interaction) {
    Set<String> granted = types.getOrDefault(interaction, Set.of());
    return granted.contains(ANY) || granted.contains(type);
  }
}
