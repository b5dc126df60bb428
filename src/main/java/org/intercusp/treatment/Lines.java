package org.intercusp.treatment;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import java.util.stream.Stream;
import org.intercusp.treatment.shape.JsonText;
import org.intercusp.treatment.shape.NotJson;
import org.jspecify.annotations.Nullable;

/**
 * The lines of an input, one held at a time; of a line, or of a text over many lines, that is too
 * long only so much is kept. What cannot be read is an {@link UncheckedIOException}.
 */
public final class Lines {

  /** One more than a text may have, so that what was cut is still refused. */
  private static final int KEPT = JsonText.MAX_BYTES + 1;

  /** A line without its end, counted from 1. */
  public static final class Line {
    private final long number;
    private final byte[] bytes;

    private Line(long number, byte[] bytes) {
      this.number = number;
      this.bytes = bytes;
    }

    public long number() {
      return number;
    }

    public byte[] bytes() {
      return bytes;
    }
  }

  /** How far is looked ahead: two lines of the most that is kept. */
  private static final int LOOKED = 2 * KEPT;

  private final BufferedInputStream in;
  private long number;

  /** Bytes that may still be read. */
  private long left = Long.MAX_VALUE;

  public Lines(InputStream in) {
    this.in = new BufferedInputStream(in, 1 << 16);
  }

  /** All lines that are not blank. */
  Stream<Line> stream() {
    return Stream.iterate(next(), line -> line != null, line -> next())
        .map(Objects::requireNonNull);
  }

  /**
   * Whether each line is a JSON text by itself, or too long to be one; the input stands where it
   * stood.
   */
  public boolean isOneTextALine() {
    in.mark(LOOKED);
    left = LOOKED;
    long start = number;
    Line first = next();
    Line second = first == null ? null : next();
    number = start;
    left = Long.MAX_VALUE;
    try {
      in.reset();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return (first != null && (first.bytes().length == KEPT || isText(first.bytes())))
        || (second != null && second.bytes()[0] == '{');
  }

  private static boolean isText(byte[] line) {
    try {
      JsonText.parse(line);
      return true;
    } catch (NotJson e) {
      return false;
    }
  }

  /** What is left, cut where it is too long. */
  public byte[] rest() {
    try {
      return in.readNBytes(KEPT);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The next line that is not blank, or null at the end. */
  public @Nullable Line next() {
    try {
      while (true) {
        byte[] line = line();
        if (line == null) {
          return null;
        }
        number++;
        if (!isBlank(line)) {
          return new Line(number, line);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private byte @Nullable [] line() throws IOException {
    int next = read();
    if (next < 0) {
      return null;
    }
    ByteArrayOutputStream line = new ByteArrayOutputStream(1024);
    while (next >= 0 && next != '\n') {
      if (line.size() < KEPT) {
        line.write(next);
      }
      next = read();
    }
    return line.toByteArray();
  }

  private int read() throws IOException {
    return left-- > 0 ? in.read() : -1;
  }

  private static boolean isBlank(byte[] line) {
    for (byte each : line) {
      if (each != ' ' && each != '\t' && each != '\r') {
        return false;
      }
    }
    return true;
  }
}
