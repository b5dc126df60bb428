package org.intercusp.web;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Answers every request with 422 and its own words in the answer; remembers the headers. */
final class EchoServer {

  /** Of its own, and said about whatever it is sent: a patient's name to those who read logs. */
  static final String WORD = "Zzcanaryrecipient";

  private final List<String> headers = Collections.synchronizedList(new ArrayList<>());
  private final HttpServer server;

  EchoServer() {
    try {
      server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.createContext("/", this::answer);
    server.start();
  }

  String address() {
    return "http://127.0.0.1:" + server.getAddress().getPort() + "/fhir";
  }

  /** The headers of all requests so far, one request a line. */
  List<String> headers() {
    synchronized (headers) {
      return List.copyOf(headers);
    }
  }

  private void answer(HttpExchange exchange) throws IOException {
    StringBuilder line = new StringBuilder();
    exchange.getRequestHeaders().forEach((name, values) -> line.append(name + "=" + values + " "));
    headers.add(line.toString());
    String asked = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
    byte[] words =
        (WORD + " is refused: " + exchange.getRequestURI() + " " + asked)
            .getBytes(StandardCharsets.UTF_8);
    exchange.getResponseHeaders().set("Content-Type", "text/plain");
    exchange.sendResponseHeaders(422, words.length);
    exchange.getResponseBody().write(words);
    exchange.close();
  }
}
