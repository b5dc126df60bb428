package org.intercusp.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;

/**
 * What this thread, and every one it starts, writes on standard output and standard error until it
 * is closed. What the pools of other tests of this process say meanwhile goes where it went before.
 *
 * <p>A command that begins sets up the log of the whole process anew. Who logs in that moment is
 * reported by the thread that sets it up, so those lines are left out by their words: in a process
 * of its own a command is alone then.
 */
final class Overheard implements AutoCloseable {

  private static final Pattern LOGGED_BESIDE =
      Pattern.compile(
          "(?m)^[^|\\n]*\\|-WARN in Logger\\[.+] - No appenders present in context .*\\R");

  private final InheritableThreadLocal<Boolean> ours = new InheritableThreadLocal<>();
  private final PrintStream outBefore = System.out;
  private final PrintStream errorBefore = System.err;
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream error = new ByteArrayOutputStream();

  Overheard() {
    this(null);
  }

  /** With standard output led elsewhere: a full disk, a reader that has gone. */
  Overheard(OutputStream elsewhere) {
    ours.set(true);
    System.setOut(parted(elsewhere == null ? out : elsewhere, outBefore));
    System.setErr(parted(error, errorBefore));
  }

  String out() {
    return out.toString(StandardCharsets.UTF_8);
  }

  String error() {
    return LOGGED_BESIDE.matcher(error.toString(StandardCharsets.UTF_8)).replaceAll("");
  }

  @Override
  public void close() {
    System.setOut(outBefore);
    System.setErr(errorBefore);
    ours.remove();
  }

  private PrintStream parted(OutputStream here, PrintStream others) {
    return new PrintStream(new Parted(here, others), true, StandardCharsets.UTF_8);
  }

  private final class Parted extends OutputStream {

    private final OutputStream here;
    private final OutputStream others;

    Parted(OutputStream here, OutputStream others) {
      this.here = here;
      this.others = others;
    }

    private OutputStream current() {
      return ours.get() == null ? others : here;
    }

    @Override
    public void write(int octet) throws IOException {
      current().write(octet);
    }

    @Override
    public void write(byte[] octets, int from, int length) throws IOException {
      current().write(octets, from, length);
    }

    @Override
    public void flush() throws IOException {
      current().flush();
    }

    @Override
    public void close() throws IOException {
      current().close();
    }
  }
}
