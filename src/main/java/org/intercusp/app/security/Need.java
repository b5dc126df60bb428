package org.intercusp.app.security;

import java.util.List;
import java.util.stream.Stream;
import org.intercusp.access.Caller;
import org.intercusp.access.Interaction;
import org.intercusp.access.Reach;

/** What a path asks of who comes. */
sealed interface Need {

  /** Nothing: it says nothing of anybody. */
  record Open() implements Need {
    @Override
    public boolean isMetBy(Caller caller) {
      return true;
    }
  }

  /** To be known, no matter for what: nothing kept is read or written. */
  record Known() implements Need {
    @Override
    public boolean isMetBy(Caller caller) {
      return caller.kind() != Caller.Kind.NOBODY;
    }
  }

  /**
   * To reach every clinic and to do everything there: it speaks of all of them, and a program that
   * reaches them all may have come for something small.
   */
  record Operator() implements Need {
    @Override
    public boolean isMetBy(Caller caller) {
      return caller.reach() instanceof Reach.Everywhere
          && Stream.of(Interaction.values()).allMatch(one -> caller.may("*", one));
    }
  }

  /** A scope for each of these. */
  record Scoped(List<Grant> grants) implements Need {
    public Scoped {
      grants = List.copyOf(grants);
    }

    @Override
    public boolean isMetBy(Caller caller) {
      return grants.stream().allMatch(one -> caller.may(one.type(), one.interaction()));
    }
  }

  /**
   * An interaction with a type of resources.
   *
   * @param type a FHIR type; {@code *} where it must be granted for all
   */
  record Grant(String type, Interaction interaction) {}

  /** Whether a caller may go in. */
  boolean isMetBy(Caller caller);

  /** Interactions with one type. */
  static Need scoped(String type, Interaction... interactions) {
    return new Scoped(Stream.of(interactions).map(one -> new Grant(type, one)).toList());
  }
}
