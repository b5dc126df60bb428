package org.intercusp.conformance;

import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/** The limits that are the same in JSON and in XML, each with its words. */
final class Bounds {

  /** Where a guard stands in its document. */
  interface Place {

    /** A refusal of what stands here. */
    Refusal refused(GuardRule rule, String message, @Nullable String value);
  }

  private final GuardLimits limits;
  private final Place place;

  Bounds(GuardLimits limits, Place place) {
    this.limits = limits;
    this.place = place;
  }

  /**
   * Bounds how often an element is repeated.
   *
   * @param times how often it has come by now
   * @param inMeta whether it is one of a resource's meta
   */
  void repeated(String name, int times, BooleanSupplier inMeta) throws Refusal {
    if (name.equals("entry") && times > limits.entries()) {
      throw refused(GuardRule.ENTRIES, "More than %d entries.", limits.entries());
    }
    if (name.equals("contained") && times > limits.contained()) {
      throw refused(
          GuardRule.CONTAINED, "A resource contains more than %d others.", limits.contained());
    }
    if (name.equals("profile") && times > limits.profiles() && inMeta.getAsBoolean()) {
      throw refused(
          GuardRule.PROFILES, "A resource claims more than %d profiles.", limits.profiles());
    }
    if (times > limits.items()) {
      throw refused(GuardRule.ITEMS, "A list has more than %d items.", limits.items());
    }
  }

  /** Bounds how many resources there are in all. */
  void resources(int count) throws Refusal {
    if (count > limits.resources()) {
      throw refused(GuardRule.RESOURCES, "More than %d resources.", limits.resources());
    }
  }

  /** Bounds the length of a value. */
  void text(String value) throws Refusal {
    if (value.length() > limits.textLength()) {
      throw place.refused(
          GuardRule.TEXT_LENGTH,
          "A value has %d characters; at most %d are taken."
              .formatted(value.length(), limits.textLength()),
          value);
    }
  }

  /** Bounds the size of a number and the length it is written with. */
  void number(String value) throws Refusal {
    if (Lexicon.exponentBeyond(value, limits.exponent())) {
      throw place.refused(
          GuardRule.EXPONENT,
          "A number has a power of ten beyond %d.".formatted(limits.exponent()),
          value);
    }
    if (value.length() > limits.numberLength()) {
      throw place.refused(
          GuardRule.NUMBER_LENGTH,
          "A number has more than %d characters.".formatted(limits.numberLength()),
          value);
    }
  }

  private Refusal refused(GuardRule rule, String words, int limit) {
    return place.refused(rule, words.formatted(limit), null);
  }
}
