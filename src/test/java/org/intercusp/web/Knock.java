package org.intercusp.web;

import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/** A request written by hand, so that headers no well-behaved client sends can be sent. */
public final class Knock {

  private final int port;
  private final String line;
  private final Map<String, String> headers = new LinkedHashMap<>();
  private byte[] body = {};

  private Knock(int port, String line) {
    this.port = port;
    this.line = line;
    headers.put("Host", "127.0.0.1:" + port);
    headers.put("Connection", "close");
  }

  public static Knock at(int port, String method, String path) {
    return new Knock(port, method + " " + path + " HTTP/1.1");
  }

  public Knock with(String header, String value) {
    headers.put(header, value);
    return this;
  }

  public Knock json(String text) {
    body = text.getBytes(StandardCharsets.UTF_8);
    headers.putIfAbsent("Content-Type", "application/json");
    headers.put("Content-Length", "" + body.length);
    return this;
  }

  /** What came back. */
  public record Reply(int status, Map<String, String> headers, String body) {
    public String header(String name) {
      return headers.getOrDefault(name.toLowerCase(Locale.ROOT), "");
    }
  }

  public Reply reply() throws IOException {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.setSoTimeout(60_000);
      StringBuilder request = new StringBuilder(line).append("\r\n");
      headers.forEach((name, value) -> request.append(name + ": " + value + "\r\n"));
      request.append("\r\n");
      socket.getOutputStream().write(request.toString().getBytes(StandardCharsets.ISO_8859_1));
      socket.getOutputStream().write(body);
      socket.getOutputStream().flush();
      if (Long.parseLong(headers.getOrDefault("Content-Length", "0")) > body.length) {
        // The service would wait a minute for the rest.
        socket.shutdownOutput();
      }
      return read(new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private static Reply read(String text) {
    int end = text.indexOf("\r\n\r\n");
    String[] lines = text.substring(0, end).split("\r\n");
    Map<String, String> headers = new LinkedHashMap<>();
    for (int i = 1; i < lines.length; i++) {
      String[] parts = lines[i].split(":", 2);
      headers.merge(
          parts[0].toLowerCase(Locale.ROOT), parts[1].strip(), (one, next) -> one + "\n" + next);
    }
    return new Reply(Integer.parseInt(lines[0].split(" ")[1]), headers, text.substring(end + 4));
  }
}
