package org.intercusp.conformance;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;

/**
 * Stands in front of every FHIR library: no document is parsed, validated or converted that was not
 * admitted here. It refuses, at the first fault, with line and column, what is not UTF-8, not well
 * formed, said twice, or beyond {@link GuardLimits}; narratives with anything that FHIR does not
 * allow in them; and in XML document types, entities and processing instructions. Its cost is
 * linear in the size of the document, and it neither recurses nor builds numbers.
 */
public final class Guard {

  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private final GuardLimits limits;
  private final JsonGuard json;
  private final XmlGuard xml;

  public Guard(GuardLimits limits) {
    this.limits = limits;
    NarrativeGuard narrative = new NarrativeGuard(limits);
    this.json = new JsonGuard(limits, narrative);
    this.xml = new XmlGuard(limits, narrative);
  }

  /** Judges one document. */
  public Admission admit(byte[] document, Format format) {
    try {
      if (document.length > limits.bytes()) {
        throw new Refusal(
            GuardRule.SIZE,
            "The document has more than %d bytes.".formatted(limits.bytes()),
            null,
            null,
            Spot.START);
      }
      String text = decoded(document);
      switch (format) {
        case JSON -> json.check(text);
        case XML -> xml.check(text);
      }
      return new Admission.Admitted(text);
    } catch (Refusal refusal) {
      return new Admission.Refused(refusal.issue());
    }
  }

  private static String decoded(byte[] document) throws Refusal {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    CharBuffer out = CharBuffer.allocate(document.length);
    CoderResult result = decoder.decode(ByteBuffer.wrap(document), out, true);
    out.flip();
    if (result.isError()) {
      throw new Refusal(
          GuardRule.ENCODING, "The document is not UTF-8.", null, null, Spot.of(out, out.length()));
    }
    if (out.length() > 0 && out.charAt(0) == BYTE_ORDER_MARK) {
      throw new Refusal(
          GuardRule.ENCODING,
          "The document begins with a byte order mark; send plain UTF-8.",
          null,
          null,
          Spot.START);
    }
    return out.toString();
  }
}
