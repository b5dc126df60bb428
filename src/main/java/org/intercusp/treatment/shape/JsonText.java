package org.intercusp.treatment.shape;

import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.json.JsonFactory;

/**
 * Reads one JSON text (RFC 8259) in UTF-8. Refused: bytes that are not UTF-8, a lone surrogate, a
 * second text behind the first, and anything beyond the limits below. A byte order mark at the
 * start is skipped. The limits lie far above any treatment a clinic writes; common practice, no
 * source.
 */
public final class JsonText {

  /** Bytes of one text: a treatment with a hundred reviews has about 60,000. */
  public static final int MAX_BYTES = 4 * 1024 * 1024;

  /** Nesting; the treatment file needs eight. */
  static final int MAX_DEPTH = 32;

  /** Characters of a text and of a name, and tokens of a file; common practice, no source. */
  static final int MAX_STRING = 100_000;

  static final int MAX_NAME = 500;
  static final int MAX_TOKENS = 200_000;

  /** Digits of a number, sign and point included, beyond which it is not expanded. */
  static final int MAX_NUMBER = 40;

  /** Size of an exponent beyond which a number is not expanded. */
  static final int MAX_EXPONENT = 20;

  private static final JsonFactory JSON =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxDocumentLength(MAX_BYTES)
                  .maxNestingDepth(MAX_DEPTH)
                  .maxStringLength(MAX_STRING)
                  .maxNameLength(MAX_NAME)
                  .maxNumberLength(1000)
                  .maxTokenCount(MAX_TOKENS)
                  .build())
          .build();

  private JsonText() {}

  /** The one JSON text in these bytes. */
  public static Node parse(byte[] utf8) throws NotJson {
    if (utf8.length > MAX_BYTES) {
      throw NotJson.tooLarge("more than " + MAX_BYTES + " bytes", 0, 0);
    }
    if (isTwoBytesALetter(utf8)) {
      throw NotJson.malformed("it is UTF-16, which spreadsheets and editors call Unicode", 1, 1);
    }
    CharBuffer text = decoded(utf8);
    int start = text.hasRemaining() && text.get(0) == '\uFEFF' ? 1 : 0;
    try (JsonParser parser =
        JSON.createParser(ObjectReadContext.empty(), text.array(), start, text.limit() - start)) {
      if (parser.nextToken() == null) {
        throw NotJson.malformed("there is nothing in it", 1, 1);
      }
      Node root = node(parser);
      if (parser.nextToken() != null) {
        throw malformedAt(parser, "something follows the end of the document");
      }
      return root;
    } catch (StreamConstraintsException e) {
      throw NotJson.tooLarge(SyntaxWords.of(e), line(e.getLocation()), column(e.getLocation()));
    } catch (JacksonException e) {
      throw NotJson.malformed(SyntaxWords.of(e), line(e.getLocation()), column(e.getLocation()));
    }
  }

  /** With its mark, or by the zero beside the brace that begins every object. */
  private static boolean isTwoBytesALetter(byte[] text) {
    if (text.length < 2) {
      return false;
    }
    int first = (text[0] & 0xff) << 8 | (text[1] & 0xff);
    return first == 0xfffe || first == 0xfeff || first == 0x7b00 || first == 0x007b;
  }

  private static CharBuffer decoded(byte[] utf8) throws NotJson {
    ByteBuffer in = ByteBuffer.wrap(utf8);
    CharBuffer out = CharBuffer.allocate(utf8.length);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(in, out, true);
    try {
      if (result.isError()) {
        result.throwException();
      }
    } catch (CharacterCodingException e) {
      int line = 1;
      int column = 1;
      for (int i = 0; i < in.position(); i++) {
        line += utf8[i] == '\n' ? 1 : 0;
        column = utf8[i] == '\n' ? 1 : column + 1;
      }
      throw NotJson.malformed("a byte that is not UTF-8", line, column);
    }
    return out.flip();
  }

  private static Node node(JsonParser parser) throws NotJson {
    JsonToken token = parser.currentToken();
    return switch (token) {
      case START_OBJECT -> object(parser);
      case START_ARRAY -> array(parser);
      case VALUE_STRING -> new Node.Str(whole(parser, parser.getString()));
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> number(parser.getString());
      case VALUE_TRUE -> new Node.Bool(true);
      case VALUE_FALSE -> new Node.Bool(false);
      case VALUE_NULL -> new Node.Null();
      default -> throw malformedAt(parser, "unexpected " + token);
    };
  }

  private static Node object(JsonParser parser) throws NotJson {
    List<Node.Entry> entries = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String name = whole(parser, parser.currentName());
      parser.nextToken();
      entries.add(new Node.Entry(name, node(parser)));
    }
    return new Node.Obj(entries);
  }

  private static Node array(JsonParser parser) throws NotJson {
    List<Node> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      items.add(node(parser));
    }
    return new Node.Arr(items);
  }

  /** A number that stays a text where expanding it would cost more than reading it. */
  private static Node number(String text) {
    return new Node.Num(text, isModest(text) ? new BigDecimal(text) : null);
  }

  private static boolean isModest(String text) {
    if (text.length() > MAX_NUMBER) {
      return false;
    }
    int e = Math.max(text.indexOf('e'), text.indexOf('E'));
    if (e < 0) {
      return true;
    }
    String exponent = text.substring(e + 1).replaceFirst("^[+-]?0*", "");
    return exponent.length() <= 2
        && (exponent.isEmpty() || Integer.parseInt(exponent) <= MAX_EXPONENT);
  }

  private static String whole(JsonParser parser, @Nullable String text) throws NotJson {
    String given = text == null ? "" : text;
    for (int i = 0; i < given.length(); i++) {
      char c = given.charAt(i);
      if (Character.isHighSurrogate(c)
          && i + 1 < given.length()
          && Character.isLowSurrogate(given.charAt(i + 1))) {
        i++;
      } else if (Character.isSurrogate(c)) {
        throw malformedAt(parser, "half a surrogate pair in a text");
      }
    }
    return given;
  }

  private static NotJson malformedAt(JsonParser parser, String why) {
    TokenStreamLocation at = parser.currentTokenLocation();
    return NotJson.malformed(why, line(at), column(at));
  }

  private static int line(@Nullable TokenStreamLocation at) {
    return at == null ? 0 : Math.max(0, at.getLineNr());
  }

  private static int column(@Nullable TokenStreamLocation at) {
    return at == null ? 0 : Math.max(0, at.getColumnNr());
  }
}
