package org.intercusp.conformance;

import java.util.ArrayDeque;
import java.util.Deque;
import org.intercusp.treatment.shape.SyntaxWords;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;

/** Walks a JSON document token by token, in one pass and without a tree. */
final class JsonGuard {

  private final GuardLimits limits;
  private final NarrativeGuard narrative;
  private final JsonFactory factory;

  JsonGuard(GuardLimits limits, NarrativeGuard narrative) {
    this.limits = limits;
    this.narrative = narrative;
    // The reader's own limits stand behind ours: wide enough that ours, which name the class of
    // attack, speak first.
    this.factory =
        JsonFactory.builder()
            .streamReadConstraints(
                StreamReadConstraints.builder()
                    .maxNestingDepth(limits.depth() + 1)
                    .maxStringLength(limits.bytes())
                    .maxNameLength(limits.bytes())
                    .maxNumberLength(limits.bytes())
                    .maxTokenCount(limits.tokens() + 1L)
                    .maxDocumentLength(limits.bytes())
                    .build())
            .build();
  }

  void check(String text) throws Refusal {
    try (JsonParser parser = factory.createParser(ObjectReadContext.empty(), text)) {
      Walk walk = new Walk(parser);
      try {
        walk.document();
      } catch (JacksonException e) {
        throw walk.malformed(e);
      }
    }
  }

  /** The state of one pass. */
  private final class Walk {
    private final JsonParser parser;
    private final Deque<Frame> open = new ArrayDeque<>();
    private final References references = new References();
    private final Bounds bounds = new Bounds(limits, this::refused);
    private int entry = -1;
    private int tokens;
    private int resources;

    Walk(JsonParser parser) {
      this.parser = parser;
    }

    void document() throws Refusal {
      JsonToken first = parser.nextToken();
      if (first != JsonToken.START_OBJECT) {
        throw refused(GuardRule.NO_RESOURCE, "A FHIR resource in JSON is one object.", null);
      }
      token(first);
      while (!open.isEmpty()) {
        JsonToken next = parser.nextToken();
        if (next == null) {
          throw refused(GuardRule.SYNTAX, "The document ends inside an object or a list.", null);
        }
        token(next);
      }
      if (resources == 0) {
        throw refused(GuardRule.NO_RESOURCE, "The document has no resourceType.", null);
      }
      trailing();
      if (references.chainBeyond(limits.chain())) {
        throw new Refusal(
            GuardRule.CHAIN,
            "More than %d entries refer to one another in a row.".formatted(limits.chain()),
            null,
            null,
            Spot.START);
      }
    }

    private void trailing() throws Refusal {
      boolean more;
      try {
        more = parser.nextToken() != null;
      } catch (JacksonException e) {
        more = true;
      }
      if (more) {
        throw refused(GuardRule.TRAILING, "Something follows the end of the resource.", null);
      }
    }

    private void token(JsonToken token) throws Refusal {
      if (++tokens > limits.tokens()) {
        throw refused(
            GuardRule.TOKENS,
            "The document has more than %d values and brackets.".formatted(limits.tokens()),
            null);
      }
      switch (token) {
        case START_OBJECT, START_ARRAY -> begin(token == JsonToken.START_ARRAY);
        case END_OBJECT, END_ARRAY -> open.pop();
        case PROPERTY_NAME -> member(parser.currentName());
        default -> {
          item();
          scalar(token);
        }
      }
    }

    private void begin(boolean list) throws Refusal {
      item();
      if (open.size() >= limits.depth()) {
        throw refused(
            GuardRule.DEPTH,
            "Objects and lists are nested deeper than %d.".formatted(limits.depth()),
            null);
      }
      Frame outer = open.peek();
      open.push(new Frame(list, outer == null ? "" : outer.member()));
    }

    private void item() throws Refusal {
      Frame frame = open.peek();
      if (frame == null || !frame.list()) {
        return;
      }
      frame.countItem();
      bounds.repeated(frame.name(), frame.items(), this::inMeta);
      if (frame.name().equals("entry") && open.size() == 2) {
        entry = frame.items() - 1;
      }
    }

    private boolean inMeta() {
      return open.stream().skip(1).findFirst().filter(f -> f.name().equals("meta")).isPresent();
    }

    private void member(String name) throws Refusal {
      if (name.length() > limits.nameLength()) {
        throw refused(
            GuardRule.NAME_LENGTH,
            "A member's name is longer than %d characters.".formatted(limits.nameLength()),
            name);
      }
      if (Lexicon.firstForbidden(name) >= 0) {
        throw refused(
            GuardRule.CHARACTER, "A member's name has a character no text may have.", name);
      }
      if (!open.element().begin(name)) {
        throw refused(
            GuardRule.DUPLICATE_MEMBER, "The member '%s' is given twice.".formatted(name), name);
      }
      if (open.element().members() > limits.members()) {
        throw refused(
            GuardRule.MEMBERS,
            "An object has more than %d members.".formatted(limits.members()),
            null);
      }
      if (name.equals("resourceType")) {
        bounds.resources(++resources);
      }
    }

    private void scalar(JsonToken token) throws Refusal {
      switch (token) {
        case VALUE_STRING -> text(parser.getString());
        case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> bounds.number(parser.getString());
        default -> {
          // true, false and null have no size; whether they belong there is the validator's matter.
        }
      }
    }

    private void text(String value) throws Refusal {
      bounds.text(value);
      int forbidden = Lexicon.firstForbidden(value);
      if (forbidden >= 0) {
        throw refused(
            GuardRule.CHARACTER,
            "A value has the character U+%04X, which no text may have."
                .formatted((int) value.charAt(forbidden)),
            value);
      }
      Frame frame = open.element();
      if (Lexicon.builtAsDecimal(frame.member(), frame.name()) && Lexicon.number(value)) {
        bounds.number(value);
      }
      if (entry >= 0 && frame.member().equals("reference")) {
        references.refers(entry, value);
      }
      if (open.size() == 3 && frame.member().equals("fullUrl") && frame.name().equals("entry")) {
        references.named(entry, value);
      }
      if (frame.member().equals("div")) {
        narrative.check(value, path(), spot());
      }
    }

    private Refusal refused(GuardRule rule, String message, @Nullable String value) {
      return new Refusal(rule, message, path(), value, spot());
    }

    private Refusal malformed(JacksonException e) {
      TokenStreamLocation at = e.getLocation();
      Spot spot = at == null ? spot() : Spot.at(at.getLineNr(), at.getColumnNr());
      return new Refusal(
          GuardRule.SYNTAX, "This is not JSON: " + SyntaxWords.of(e), path(), null, spot);
    }

    private Spot spot() {
      TokenStreamLocation at = parser.currentTokenLocation();
      return Spot.at(at.getLineNr(), at.getColumnNr());
    }

    /** The FHIRPath of the value being read; absent at the root. */
    private @Nullable String path() {
      StringBuilder path = new StringBuilder();
      open.descendingIterator().forEachRemaining(frame -> frame.append(path));
      return path.length() == 0 ? null : path.toString();
    }
  }
}
