package org.intercusp.recordsserver;

/**
 * What the command line asks for: {@code --server.port=8081} (0, the default, takes a free port),
 * {@code --records.temper=plain|strict} (default plain) and {@code --records.release=4.0|4.3|5.0}
 * (default 4.0). Anything else is refused.
 */
record Options(int port, Temper temper, Release release) {

  private static final String PORT = "--server.port=";
  private static final String TEMPER = "--records.temper=";
  private static final String RELEASE = "--records.release=";

  static Options of(String... arguments) {
    int port = 0;
    Temper temper = Temper.PLAIN;
    Release release = Release.R4;
    for (String argument : arguments) {
      if (argument.startsWith(PORT)) {
        port = port(argument.substring(PORT.length()));
      } else if (argument.startsWith(TEMPER)) {
        temper = Temper.of(argument.substring(TEMPER.length()));
      } else if (argument.startsWith(RELEASE)) {
        release = Release.of(argument.substring(RELEASE.length()));
      } else {
        throw new IllegalArgumentException("unknown option " + argument);
      }
    }
    return new Options(port, temper, release);
  }

  private static int port(String digits) {
    int port;
    try {
      port = Integer.parseInt(digits);
    } catch (NumberFormatException e) {
      port = -1;
    }
    if (port < 0 || port > 65_535) {
      throw new IllegalArgumentException("server.port is a number from 0 to 65535, not " + digits);
    }
    return port;
  }
}
