package org.intercusp.exchange.wire;

import java.net.http.HttpHeaders;
import java.util.Locale;

/** What a server answered, as it came. */
public final class Answer {

  private final int status;
  private final HttpHeaders headers;
  private final byte[] body;

  Answer(int status, HttpHeaders headers, byte[] body) {
    this.status = status;
    this.headers = headers;
    this.body = body;
  }

  int status() {
    return status;
  }

  byte[] body() {
    return body;
  }

  boolean isSuccess() {
    return status >= 200 && status < 300;
  }

  /** The first value of a header; empty where there is none. */
  public String header(String name) {
    return headers.firstValue(name).orElse("");
  }

  /** The media type, lower case, without parameters. */
  String mediaType() {
    return header("Content-Type").split(";", 2)[0].strip().toLowerCase(Locale.ROOT);
  }

  boolean isEmpty() {
    return body.length == 0;
  }
}
