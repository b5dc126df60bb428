package org.intercusp.web;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A browser reduced to what a login needs: cookies by server, redirects, the hidden field of a
 * form. Like a browser on the loopback address it sends secure cookies there.
 */
final class LoginVisitor {

  private static final Pattern HIDDEN =
      Pattern.compile(
          "name=\"_csrf\"[^>]*value=\"([^\"]+)\"|value=\"([^\"]+)\"[^>]*name=\"_csrf\"");

  private final HttpClient http = HttpClient.newHttpClient();
  private final Map<String, Map<String, String>> cookies = new LinkedHashMap<>();

  /**
   * What a page came to.
   *
   * @param first where the first answer sent on to; empty where it did not
   * @param url where it ended
   */
  record Seen(String first, String url, int status, String body) {}

  Seen opens(String url) throws IOException {
    return follow(url, null);
  }

  /** Sends a form of a page that was seen, with the page's hidden field. */
  Seen sends(Seen page, String url, String fields) throws IOException {
    Matcher hidden = HIDDEN.matcher(page.body());
    if (!hidden.find()) {
      throw new AssertionError("no form on " + page.url());
    }
    String token = hidden.group(1) == null ? hidden.group(2) : hidden.group(1);
    return follow(url, fields + (fields.isEmpty() ? "" : "&") + "_csrf=" + token);
  }

  Seen posts(String url, String fields) throws IOException {
    return follow(url, fields);
  }

  /** The whole line that set a cookie. */
  String cookie(int port, String name) {
    return cookies.getOrDefault("127.0.0.1:" + port, Map.of()).getOrDefault(name, "");
  }

  String cookies(int port) {
    return header("127.0.0.1:" + port);
  }

  private String header(String server) {
    return cookies.getOrDefault(server, Map.of()).entrySet().stream()
        .map(one -> one.getKey() + "=" + one.getValue().split(";", 2)[0])
        .collect(Collectors.joining("; "));
  }

  private Seen follow(String start, @Nullable String form) throws IOException {
    String url = start;
    String fields = form;
    String first = "";
    for (int hops = 0; hops < 15; hops++) {
      HttpResponse<String> answer = ask(URI.create(url), fields);
      if (answer.statusCode() / 100 != 3) {
        return new Seen(first, url, answer.statusCode(), answer.body());
      }
      url =
          URI.create(url).resolve(answer.headers().firstValue("Location").orElseThrow()).toString();
      first = first.isEmpty() ? url : first;
      fields = null;
    }
    throw new AssertionError("sent around without end, last to " + url);
  }

  private HttpResponse<String> ask(URI url, @Nullable String form) throws IOException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(url).header("Accept", "text/html,application/xhtml+xml");
    String sent = header(url.getAuthority());
    if (!sent.isEmpty()) {
      request.header("Cookie", sent);
    }
    if (form != null) {
      request
          .header("Content-Type", "application/x-www-form-urlencoded")
          .POST(HttpRequest.BodyPublishers.ofString(form));
    }
    try {
      HttpResponse<String> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.ofString());
      answer.headers().allValues("Set-Cookie").forEach(line -> keep(url.getAuthority(), line));
      return answer;
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private void keep(String server, String line) {
    int equals = line.indexOf('=');
    cookies
        .computeIfAbsent(server, name -> new LinkedHashMap<>())
        .put(line.substring(0, equals), line.substring(equals + 1));
  }
}
