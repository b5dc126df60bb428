package org.intercusp.exchange.wire;

import java.net.URI;
import java.net.http.HttpRequest;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ThreadLocalRandom;
import java.util.function.Supplier;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.version.Release;
import org.jspecify.annotations.Nullable;

/**
 * The FHIR interactions of one call to one server. Reading is tried again here; writing is not,
 * since only a new look at the server can say what became of the first try.
 */
public final class FhirServer {

  private static final String CACHE_CONTROL = "Cache-Control";

  private final Target target;
  private final Post post;
  private final FhirText text;
  private final ClientSettings settings;
  private final Clock clock;
  private final Past past;
  private Deadline deadline;
  private boolean unheard;
  private boolean json = true;
  private boolean batches;
  private Release release = Release.R4;
  private @Nullable Instant told;

  FhirServer(
      Target target,
      Post post,
      FhirText text,
      ClientSettings settings,
      Clock clock,
      Deadline deadline,
      Past past) {
    this.target = target;
    this.post = post;
    this.text = text;
    this.settings = settings;
    this.clock = clock;
    this.deadline = deadline;
    this.past = past;
  }

  /** What the sender knows of its earlier tries. */
  public Past past() {
    return past;
  }

  /** Whether a write of this call may be carried out although nobody heard of it. */
  public boolean isUnheard() {
    return unheard;
  }

  /** Gives what is asked from now on the time of a call of its own. */
  public void anew() {
    deadline = Deadline.in(settings.deadline());
  }

  Deadline deadline() {
    return deadline;
  }

  /** What reads and writes FHIR as text in this call. */
  public FhirText text() {
    return text;
  }

  /** The FHIR base URL, without a closing slash. */
  public String base() {
    return target.baseUrl().toString();
  }

  /** Reads the CapabilityStatement, and from then on speaks the format and release it names. */
  public Capabilities capabilities() throws Trouble {
    // Nobody between may answer, but the server from what it said a moment ago: HAPI FHIR composes
    // a megabyte and a half anew for "no-cache", two thirds of what a delivery made it do
    // (measured).
    URI url = URI.create(base() + "/metadata");
    Resource statement = read(() -> request(url).setHeader(CACHE_CONTROL, "max-age=0").GET());
    if (!(statement instanceof CapabilityStatement said)) {
      throw new Trouble(Difficulty.NOT_FHIR, "The server's /metadata is not a CapabilityStatement");
    }
    Capabilities can = Capabilities.of(said);
    json = can.json();
    release = can.release();
    // Bundles within Bundles are left to what needs no conversion.
    batches = can.batch() && release == Release.R4;
    return can;
  }

  /** Whether it says that it takes several questions at once. */
  boolean takesBatches() {
    return batches;
  }

  /** Several questions at once are of no use here. */
  void withoutBatches() {
    batches = false;
  }

  /** What time it was on the server when it last answered; empty where it does not tell. */
  public Optional<Instant> time() {
    return Optional.ofNullable(told);
  }

  private void listen(Answer answer) {
    try {
      told = DateTimeFormatter.RFC_1123_DATE_TIME.parse(answer.header("Date"), Instant::from);
    } catch (DateTimeException e) {
      told = null;
    }
  }

  /** All resources of the type that a search finds, page by page, on this server alone. */
  List<Resource> search(String type, String query) throws Trouble {
    return pages(type, read(URI.create(base() + "/" + release.typeName(type) + "?" + query)));
  }

  /** All resources of the type on a first page of a search and on those that follow it. */
  List<Resource> pages(String type, Resource first) throws Trouble {
    return new Pages(target, this::read, settings.pages()).from(type, first);
  }

  /** Reads one resource; empty where there is none or no longer one. */
  public Optional<Resource> read(String type, String id) throws Trouble {
    try {
      return Optional.of(read(URI.create(base() + "/" + release.typeName(type) + "/" + id)));
    } catch (Trouble e) {
      if (e.status() == 404 || e.status() == 410) {
        return Optional.empty();
      }
      throw e;
    }
  }

  /** Posts a batch that only asks; like other reading it is tried again. */
  Resource ask(Bundle questions) throws Trouble {
    byte[] body = text.written(questions, json, release);
    return read(() -> sending(URI.create(base()), "POST", body));
  }

  private Resource read(URI url) throws Trouble {
    return read(() -> request(url).GET());
  }

  private Resource read(Supplier<HttpRequest.Builder> request) throws Trouble {
    for (int tried = 1; ; tried++) {
      try {
        Answer answer = post.send(target, request.get(), deadline, () -> true);
        if (answer.isSuccess()) {
          listen(answer);
          return text.read(answer, release);
        }
        throw Complaint.of(answer, text.words(answer), clock);
      } catch (Trouble e) {
        if (!mayTryAgain(e, tried)) {
          throw e;
        }
      }
    }
  }

  /** Waits before another try; false when there is none to be. */
  public boolean mayTryAgain(Trouble trouble, int tried) throws Trouble {
    if (!trouble.difficulty().isPassing()
        || trouble.difficulty() == Difficulty.SLOW
        || trouble.difficulty() == Difficulty.UNSETTLED
        || tried >= settings.tries()) {
      return false;
    }
    Duration own =
        Waits.growing(
            settings.firstWait(), settings.longestWait(), tried, ThreadLocalRandom.current());
    Duration asked = trouble.retryAfter().orElse(Duration.ZERO);
    if (asked.compareTo(settings.longestRetryAfter()) > 0) {
      return false;
    }
    return deadline.pause(asked.compareTo(own) > 0 ? asked : own);
  }

  /**
   * Posts a Bundle to the base; the answer is a Bundle, or nothing where the server sends none.
   *
   * @param conditional whether all that it creates is created on the condition that it is absent
   */
  public Optional<Bundle> post(Bundle bundle, boolean conditional) throws Trouble {
    Answer answer = write("POST", URI.create(base()), bundle, List.of(), conditional);
    if (answer.isEmpty()) {
      return Optional.empty();
    }
    if (text.read(answer, release) instanceof Bundle said) {
      return Optional.of(said);
    }
    throw new Trouble(Difficulty.NOT_FHIR, "The server answered a Bundle with something else");
  }

  /** Creates a resource, on the condition that the search finds none. */
  public Answer create(Resource resource, @Nullable Token unless) throws Trouble {
    List<String> condition = unless == null ? List.of() : List.of("If-None-Exist", unless.search());
    URI url = URI.create(base() + "/" + release.typeName(resource.fhirType()));
    return write("POST", url, resource, condition, false);
  }

  /** Replaces a stored resource, on the condition that it still has the version. */
  public Answer update(Resource resource, @Nullable String version) throws Trouble {
    List<String> condition =
        version == null ? List.of() : List.of("If-Match", "W/\"" + version + "\"");
    String type = release.typeName(resource.fhirType());
    URI url = URI.create(base() + "/" + type + "/" + resource.getIdElement().getIdPart());
    return write("PUT", url, resource, condition, false);
  }

  private Answer write(
      String method, URI url, Resource resource, List<String> headers, boolean conditional)
      throws Trouble {
    HttpRequest.Builder request = sending(url, method, text.written(resource, json, release));
    for (int i = 0; i < headers.size(); i += 2) {
      request.header(headers.get(i), headers.get(i + 1));
    }
    Answer answer = sent(request, conditional);
    if (answer.isSuccess() && (answer.isEmpty() || FhirText.isFhir(answer))) {
      return answer;
    }
    if (answer.isSuccess()) {
      text.read(answer, release);
    }
    throw Complaint.of(answer, text.words(answer), clock);
  }

  private Answer sent(HttpRequest.Builder request, boolean conditional) throws Trouble {
    try {
      Answer answer = post.send(target, request, deadline, () -> past.writing().may(conditional));
      // A gateway that got no answer itself does not know either.
      unheard |= answer.status() == 502 || answer.status() == 504;
      if (!unheard) {
        past.answered().run();
      }
      return answer;
    } catch (Trouble e) {
      unheard |= e.isUnheard();
      throw e;
    }
  }

  private HttpRequest.Builder sending(URI url, String method, byte[] body) {
    return request(url)
        .header("Content-Type", (json ? FhirText.JSON : FhirText.XML) + "; charset=utf-8")
        .method(method, HttpRequest.BodyPublishers.ofByteArray(body));
  }

  private HttpRequest.Builder request(URI url) {
    return HttpRequest.newBuilder(url)
        .header("Accept", json ? "application/fhir+json, application/json;q=0.9" : FhirText.XML)
        // What was written a moment ago must be found: no cached search results.
        .header(CACHE_CONTROL, "no-cache");
  }
}
