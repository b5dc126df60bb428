package org.intercusp.exchange.wire;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.zip.GZIPInputStream;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLException;
import org.intercusp.access.CurrentCaller;

/**
 * One request and its answer. The platform's own HTTP client does it: it follows no redirect unless
 * told to, hands over the body as it arrives so that its length can be bounded, and gives up a
 * whole exchange when it is cancelled, which is how the deadline holds for connecting, headers and
 * body alike.
 */
final class Wire {

  private final ClientSettings settings;
  private final Surroundings surroundings;
  private final int answerBytes;
  private final HttpClient plain;
  private final Map<SSLContext, HttpClient> certified = new ConcurrentHashMap<>();

  Wire(ClientSettings settings, Surroundings surroundings) {
    this.settings = settings;
    this.surroundings = surroundings;
    this.answerBytes = settings.answerBytes();
    this.plain = client().build();
  }

  private HttpClient.Builder client() {
    return HttpClient.newBuilder()
        .version(HttpClient.Version.HTTP_1_1)
        .followRedirects(HttpClient.Redirect.NEVER)
        .connectTimeout(settings.connecting());
  }

  private HttpClient client(Target target) {
    SSLContext tls = target.tls();
    return tls == null
        ? plain
        : certified.computeIfAbsent(tls, one -> client().sslContext(one).build());
  }

  /** Sends to where the target was configured to be, and nowhere else whoever asks for it. */
  Answer send(Target target, HttpRequest request, Deadline deadline) throws Trouble {
    boolean authorized = request.headers().firstValue("Authorization").isPresent();
    if (!target.covers(request.uri()) || (authorized && !target.isHome(request.uri()))) {
      throw new Trouble(Difficulty.ELSEWHERE, "Another host than the configured is not called");
    }
    surroundings.check(target, request.uri(), deadline);
    Duration left = deadline.left();
    if (left.isZero()) {
      throw slow(request.uri());
    }
    CompletableFuture<HttpResponse<byte[]>> exchange =
        client(target).sendAsync(traced(request), head -> new BoundedBody(answerBytes));
    try {
      HttpResponse<byte[]> answer = exchange.get(left.toMillis(), TimeUnit.MILLISECONDS);
      return new Answer(answer.statusCode(), answer.headers(), unpacked(answer));
    } catch (TimeoutException e) {
      exchange.cancel(true);
      throw slow(request.uri()).unheard();
    } catch (InterruptedException e) {
      exchange.cancel(true);
      Thread.currentThread().interrupt();
      throw new Trouble(Difficulty.SLOW, "Interrupted while waiting for the records server")
          .unheard();
    } catch (ExecutionException e) {
      throw broken(request.uri(), e.getCause() == null ? e : e.getCause());
    }
  }

  /** The other side can tell that its part of the work belongs to ours. */
  private static HttpRequest traced(HttpRequest request) {
    return HttpRequest.newBuilder(request, (name, value) -> true)
        .setHeader("traceparent", CurrentCaller.trace().next().header())
        .build();
  }

  private byte[] unpacked(HttpResponse<byte[]> answer) throws Trouble {
    String encoding =
        answer.headers().firstValue("Content-Encoding").orElse("").toLowerCase(Locale.ROOT);
    if (!encoding.equals("gzip")) {
      return answer.body();
    }
    try (InputStream in = new GZIPInputStream(new ByteArrayInputStream(answer.body()))) {
      byte[] bytes = in.readNBytes(answerBytes);
      if (in.read() >= 0) {
        throw tooLong(answer.uri());
      }
      return bytes;
    } catch (IOException e) {
      throw new Trouble(Difficulty.NOT_FHIR, answer.uri().getHost() + " sent gzip that is none");
    }
  }

  private Trouble broken(URI url, Throwable cause) {
    for (Throwable at = cause; at != null; at = at.getCause()) {
      if (at instanceof BoundedBody.TooLong) {
        return tooLong(url);
      }
      if (at instanceof java.net.http.HttpTimeoutException) {
        return new Trouble(Difficulty.DOWN, place(url) + " did not take a connection in time");
      }
      if (at instanceof SSLException) {
        return new Trouble(
            Difficulty.DOWN, place(url) + " and we do not accept each other's certificates or TLS");
      }
      if (at instanceof java.net.ConnectException) {
        return new Trouble(Difficulty.DOWN, place(url) + " takes no connection");
      }
    }
    return new Trouble(Difficulty.DOWN, "The connection to " + place(url) + " broke").unheard();
  }

  private Trouble tooLong(URI url) {
    return new Trouble(
        Difficulty.UNACCEPTABLE,
        "The answer of " + place(url) + " is longer than " + answerBytes + " bytes");
  }

  private static Trouble slow(URI url) {
    return new Trouble(Difficulty.SLOW, place(url) + " did not answer in time");
  }

  // The path and query hold identifiers of patients: they are kept out of every message.
  private static String place(URI url) {
    return url.getPort() < 0 ? url.getHost() : url.getHost() + ":" + url.getPort();
  }
}
