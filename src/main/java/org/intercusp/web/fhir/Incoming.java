package org.intercusp.web.fhir;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.zip.GZIPInputStream;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.GuardLimits;
import org.jspecify.annotations.Nullable;
import org.springframework.http.MediaType;

/**
 * A document that somebody sends: read up to the size the guard takes, whether it comes as it is or
 * compressed, so that a small one that unfolds without end costs no more than a large one.
 *
 * @param bytes as sent, unfolded
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record Incoming(byte[] bytes, Format format) {

  private static final int LIMIT = GuardLimits.DEFAULT.bytes();

  static Incoming of(HttpServletRequest request) throws IOException {
    String said = request.getContentType();
    // Only what has no body comes without a type.
    MediaType type = said == null ? MediaType.APPLICATION_JSON : MediaType.parseMediaType(said);
    if (!isRelease4(type)) {
      throw Fault.of(
          Reason.MEDIA_TYPE,
          "Documents are taken in FHIR 4.0 (R4); the Content-Type names another release.");
    }
    if (type.getCharset() != null && !type.getCharset().equals(StandardCharsets.UTF_8)) {
      throw Fault.of(Reason.MEDIA_TYPE, "Documents are sent in UTF-8.");
    }
    byte[] bytes = unfolded(request.getInputStream(), request.getHeader("Content-Encoding"));
    if (bytes.length > LIMIT) {
      throw Fault.of(Reason.TOO_LARGE, "The document has more than %d bytes.".formatted(LIMIT));
    }
    Format format = type.getSubtype().contains("xml") ? Format.XML : Format.JSON;
    return new Incoming(bytes, format);
  }

  /** Whether a type is of the release spoken here, which it is where it names none. */
  static boolean isRelease4(MediaType type) {
    String release = type.getParameter("fhirVersion");
    return release == null || release.replace("\"", "").matches("4\\.0(\\..*)?");
  }

  private static byte[] unfolded(InputStream in, @Nullable String encoding) throws IOException {
    return switch (encoding == null ? "identity" : encoding.strip().toLowerCase(Locale.ROOT)) {
      case "identity" -> in.readNBytes(LIMIT + 1);
      case "gzip", "x-gzip" -> gunzipped(in);
      default -> throw Fault.of(Reason.MEDIA_TYPE, "Documents are sent as they are, or gzipped.");
    };
  }

  private static byte[] gunzipped(InputStream in) throws IOException {
    // The packed form of a document within the limit is within it too, but for its frame.
    try (GZIPInputStream unfolding = new GZIPInputStream(in)) {
      return unfolding.readNBytes(LIMIT + 1);
    } catch (java.util.zip.ZipException | java.io.EOFException e) {
      throw Fault.of(Reason.UNREADABLE, "The document is said to be gzipped, and is not.");
    }
  }
}
