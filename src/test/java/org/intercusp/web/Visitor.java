package org.intercusp.web;

import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A person with a browser: opens pages, keeps the cookie, sends the forms that are there. */
final class Visitor {

  private final int port;
  private String cookie = "";

  Visitor(int port) {
    this.port = port;
  }

  Knock.Reply open(String path) throws IOException {
    Knock knock = Knock.at(port, "GET", path).with("Accept", "text/html");
    Knock.Reply reply = (cookie.isEmpty() ? knock : knock.with("Cookie", cookie)).reply();
    String set = reply.header("Set-Cookie");
    cookie = set.isEmpty() ? cookie : set.substring(0, set.indexOf(';'));
    return reply;
  }

  /** Sends a form of a page with what stands in its hidden fields, and with what is typed. */
  Knock.Reply send(Knock.Reply page, String action, Map<String, String> typed) throws IOException {
    String form = form(page.body(), action);
    Map<String, String> fields = new LinkedHashMap<>();
    Matcher hidden =
        Pattern.compile("<input type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"")
            .matcher(form);
    while (hidden.find()) {
      fields.put(hidden.group(1), unescaped(hidden.group(2)));
    }
    fields.putAll(typed);
    Matcher to = Pattern.compile("action=\"([^\"]+)\"").matcher(form);
    if (!to.find()) {
      throw new AssertionError("the form goes nowhere: " + form);
    }
    return post(unescaped(to.group(1)), fields);
  }

  Knock.Reply post(String path, Map<String, String> fields) throws IOException {
    StringBuilder body = new StringBuilder();
    fields.forEach(
        (name, value) ->
            body.append(body.isEmpty() ? "" : "&")
                .append(name)
                .append('=')
                .append(URLEncoder.encode(value, StandardCharsets.UTF_8)));
    return Knock.at(port, "POST", path)
        .with("Accept", "text/html")
        .with("Content-Type", "application/x-www-form-urlencoded")
        .with("Cookie", cookie)
        .json(body.toString())
        .reply();
  }

  private static String form(String page, String action) {
    Matcher forms = Pattern.compile("(?s)<form[^>]*>.*?</form>").matcher(page);
    while (forms.find()) {
      String form = forms.group();
      if (Pattern.compile("action=\"[^\"?]*" + action + "[\"?]").matcher(form).find()) {
        return form;
      }
    }
    throw new AssertionError("no form for " + action);
  }

  private static String unescaped(String text) {
    return text.replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&");
  }
}
