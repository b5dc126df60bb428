package org.intercusp.access;

import java.util.Set;

/**
 * Who asks.
 *
 * @param subject what the authorization server calls them, or a name of ours for our own workers
 * @param name what people call them; the subject where nothing better is known
 * @param kind what kind of caller it is
 * @param reach the clinics they may touch
 * @param scopes what they may do there
 */
public record Caller(String subject, String name, Kind kind, Reach reach, Scopes scopes) {

  /** The kinds of callers. */
  public enum Kind {
    /** Whoever sits at the machine, where nobody logs in. */
    LOCAL,
    /** A person with a login. */
    PERSON,
    /** A program with a token of its own. */
    PROGRAM,
    /** Somebody who could not say who they are. */
    NOBODY,
    /** A part of this service that works by itself. */
    WORKER
  }

  /** Whoever sits at the machine, where nobody logs in: everything. */
  public static final Caller LOCAL =
      new Caller("local", "local", Kind.LOCAL, new Reach.Everywhere(), Scopes.ALL);

  /** Somebody who could not say who they are: nothing. */
  public static final Caller NOBODY =
      new Caller("nobody", "nobody", Kind.NOBODY, new Reach.Clinics(Set.of()), Scopes.NONE);

  /** A part of this service that works by itself, for every clinic. */
  public static Caller worker(String name) {
    return new Caller(name, name, Kind.WORKER, new Reach.Everywhere(), Scopes.ALL);
  }

  /** Whether an interaction with resources of a type is granted. */
  public boolean may(String type, Interaction interaction) {
    return scopes.permit(type, interaction);
  }

  /** Neither name nor subject, which say who a person is. */
  @Override
  public String toString() {
    return "Caller[" + kind + "]";
  }
}
