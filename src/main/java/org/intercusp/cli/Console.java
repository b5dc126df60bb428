package org.intercusp.cli;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.springframework.stereotype.Component;

/** Results go to standard output, everything else to standard error; both in UTF-8. */
@Component
final class Console {

  private final PrintStream out;
  private final PrintStream error;

  Console() {
    this(System.out, System.err);
  }

  private Console(PrintStream out, PrintStream error) {
    this.out = new PrintStream(out, false, StandardCharsets.UTF_8);
    this.error = new PrintStream(error, true, StandardCharsets.UTF_8);
  }

  void result(String text) {
    out.println(text);
  }

  void result(byte[] utf8) {
    out.write(utf8, 0, utf8.length);
    out.println();
  }

  /** A document as it is, with nothing added. */
  void bytes(byte[] document) {
    out.write(document, 0, document.length);
  }

  void say(String text) {
    error.println(text);
  }

  void flush() {
    out.flush();
    error.flush();
  }
}
