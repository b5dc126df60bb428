package org.intercusp.cli;

import java.io.BufferedOutputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.springframework.stereotype.Component;

/**
 * Results go to standard output, everything else to standard error; both in UTF-8. Results that
 * cannot be written, on a full disk or because nobody reads them any more, are {@link Unwritten}.
 */
@Component
final class Console {

  private static final int BUFFER = 1 << 16;

  /** What gives a terminal orders; a record that is refused is quoted, whatever stands in it. */
  private static final Pattern CONTROL = Pattern.compile("[\\p{Cc}&&[^\\t\\r\\n]]");

  private static final String REPLACEMENT = "\uFFFD";

  private final BufferedOutputStream out;
  private final PrintStream error;
  private boolean unwritten;

  Console() {
    this(System.out, System.err);
  }

  private Console(PrintStream out, PrintStream error) {
    this.out = new BufferedOutputStream(new Heard(out), BUFFER);
    this.error = new PrintStream(error, true, StandardCharsets.UTF_8);
  }

  void result(String text) {
    result(text.getBytes(StandardCharsets.UTF_8));
  }

  void result(byte[] utf8) {
    bytes(utf8);
    bytes(System.lineSeparator().getBytes(StandardCharsets.UTF_8));
  }

  /** A document as it is, with nothing added. */
  void bytes(byte[] document) {
    try {
      out.write(document, 0, document.length);
    } catch (IOException e) {
      unwritten = true;
      throw new Unwritten(e);
    }
  }

  void say(String text) {
    error.println(CONTROL.matcher(text).replaceAll(REPLACEMENT));
  }

  /** Writes out what is left of the results; what did not arrive before was told then. */
  void flush() {
    try {
      if (!unwritten) {
        out.flush();
      }
    } catch (IOException e) {
      throw new Unwritten(e);
    } finally {
      error.flush();
    }
  }

  /** The results did not arrive. */
  static final class Unwritten extends RuntimeException {

    private static final long serialVersionUID = 1L;

    Unwritten(IOException cause) {
      super(
          "The results could not be written: the disk is full, or nobody reads them any more.",
          cause);
    }
  }

  /** Asks the stream after each block, since it says nothing by itself. */
  private static final class Heard extends FilterOutputStream {

    private final PrintStream stream;

    Heard(PrintStream stream) {
      super(stream);
      this.stream = stream;
    }

    @Override
    public void write(byte[] bytes, int from, int length) throws IOException {
      stream.write(bytes, from, length);
      flush();
    }

    @Override
    public void flush() throws IOException {
      if (stream.checkError()) {
        throw new IOException("standard output takes no more");
      }
    }
  }
}
