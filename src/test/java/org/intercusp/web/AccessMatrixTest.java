package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.intercusp.web.AccessMatrix.Line;
import org.intercusp.web.Issuer.Program;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.web.bind.annotation.RequestMethod;
import org.springframework.web.servlet.mvc.method.RequestMappingInfo;
import org.springframework.web.servlet.mvc.method.RequestMappingInfoHandlerMapping;
import tools.jackson.databind.JsonNode;

/**
 * Every endpoint, every kind of caller, two clinics: the expected code, and nothing of the second
 * clinic in what the first one's callers get. Tokens come from a real authorization server.
 */
class AccessMatrixTest extends GuardedServiceBase {

  private static final Set<Program> SEES_B = Set.of(Program.B_FULL, Program.OPERATOR);

  private static final String FORM =
      "version=1&acceptance=0&to=nobody&finding=x&subject=x&pointer=x&family=x&system=urn:x:y"
          + "&value=1&reason=x";

  private String bundleOfB = "";

  @Autowired ApplicationContext context;

  @Test
  void everyEndpointHasItsLine() {
    Set<String> served = new TreeSet<>();
    for (RequestMappingInfoHandlerMapping mapping :
        context.getBeansOfType(RequestMappingInfoHandlerMapping.class).values()) {
      mapping.getHandlerMethods().keySet().forEach(info -> served.addAll(endpoints(info)));
    }
    assertThat(served).hasSizeGreaterThan(20);
    assertThat(new TreeSet<>(AccessMatrix.lines().stream().map(Line::endpoint).toList()))
        .isEqualTo(served);
  }

  private static List<String> endpoints(RequestMappingInfo info) {
    List<String> all = new ArrayList<>();
    Set<RequestMethod> methods = info.getMethodsCondition().getMethods();
    for (String pattern : info.getPatternValues()) {
      String path = pattern.isEmpty() ? "/" : pattern;
      if (methods.isEmpty()) {
        all.add("ANY " + path);
      }
      methods.forEach(method -> all.add(method + " " + path));
    }
    return all;
  }

  @Test
  void everyCallerGetsWhatIsTheirsAndNothingElse() throws IOException {
    Map<String, String> things = things();
    List<String> wrong = new ArrayList<>();
    for (Line line : AccessMatrix.lines()) {
      int nobody = line.codes().get(0);
      check(line, null, nobody, things, wrong);
      check(line, Program.EXPIRED, nobody == 401 ? 401 : 0, things, wrong);
      check(line, Program.WRONG_AUDIENCE, nobody == 401 ? 401 : 0, things, wrong);
      for (int column = 0; column < AccessMatrix.COLUMNS.size(); column++) {
        check(line, AccessMatrix.COLUMNS.get(column), line.codes().get(column + 1), things, wrong);
      }
    }
    assertThat(wrong).isEmpty();
  }

  private Map<String, String> things() throws IOException {
    String event = "";
    for (JsonNode entry :
        read(as(Program.B_FULL, "GET", "/fhir/AuditEvent").reply()).path("entry")) {
      event = entry.path("resource").path("id").stringValue();
    }
    Map<String, String> things = new LinkedHashMap<>();
    JsonNode patients = read(as(Program.B_FULL, "GET", "/fhir/Patient").reply());
    things.put(
        "{patient}",
        patients.path("entry").path(0).path("resource").path("id").asString("nothing"));
    String outcomes =
        RegistryReachTest.record("quay-side", "case", 3)
            .replace("S-1", "S-9")
            .replace("9434765919", "ZZ-CANARY-7");
    JsonNode sent =
        read(
            as(Program.B_FULL, "POST", "/registry/outcomes")
                .json(outcomes + "Zzcanaryfamily\n")
                .reply());
    String submission = sent.path("id").asString("nothing");
    while (!sent.path("state").asString("done").equals("done")) {
      sent = read(as(Program.B_FULL, "GET", "/registry/outcomes/" + submission).reply());
    }
    assertThat(sent.at("/counts/new").asInt()).isEqualTo(1);
    things.put("/registry/outcomes", submission);
    bundleOfB = as(Program.B_FULL, "GET", "/treatments/" + OF_B + "/bundle").reply().body();
    things.put("/treatments", OF_B);
    things.put("/pages/treatments", OF_B);
    things.put("/deliveries", deliveryOfB());
    things.put("/pages/deliveries", deliveryOfB());
    things.put("/fhir/AuditEvent", event);
    things.put("/fhir/$export", exportOfB());
    things.put("/fhir/**", "/fhir/Patient/ZZ-CANARY-7");
    things.put("/actuator/health/**", "/actuator/health/liveness");
    return things;
  }

  private String exportOfB() throws IOException {
    String status =
        as(Program.B_FULL, "GET", "/fhir/$export?_type=Patient")
            .with("Prefer", "respond-async")
            .reply()
            .header("Content-Location");
    String path = status.substring(status.indexOf("/fhir/"));
    while (as(Program.B_FULL, "GET", path).reply().status() == 202) {
      java.util.concurrent.locks.LockSupport.parkNanos(200_000_000);
    }
    return path.substring(path.lastIndexOf('/') + 1);
  }

  private void check(
      Line line,
      @Nullable Program program,
      int expected,
      Map<String, String> things,
      List<String> wrong)
      throws IOException {
    boolean hasPage =
        line.endpoint()
            .matches("GET /(treatments/\\{id}(/proposals)?|deliveries|recipients|rules)?");
    boolean onlyPage =
        line.endpoint().matches("GET /treatments/\\{id}/(compare|saved|\\{list.*}/new)");
    List<String> both = onlyPage ? List.of("text/html") : List.of("*/*", "text/html");
    for (String accept : hasPage || onlyPage ? both : List.of("*/*")) {
      boolean page = accept.equals("text/html");
      Knock.Reply reply = asked(line, program, accept, things);
      String who = (program == null ? "nobody" : program.name()) + " at " + line.place();
      // A page for a program, and a program's answer for a browser, are refused once one is in.
      boolean inside = expected == 200 && reply.status() == 406;
      boolean other = inside || (page && program == null && reply.status() == 302);
      if (expected != 0 && reply.status() != expected && !other) {
        wrong.add(who + " as " + accept + ": " + reply.status() + ", expected " + expected);
      }
      if (program == null || !SEES_B.contains(program)) {
        leaks(line, line.path(things), reply)
            .forEach(word -> wrong.add(who + " as " + accept + " got " + word));
      }
    }
  }

  /** What the caller said themselves may come back, but only that. */
  private static List<String> leaks(Line line, String path, Knock.Reply reply) {
    String everything = reply.headers() + reply.body();
    boolean own = line.endpoint().equals("POST /check");
    return own
        ? List.of()
        : List.of(GuardedService.CANARIES).stream()
            .filter(word -> everything.contains(word) && !path.contains(word))
            .toList();
  }

  private Knock.Reply asked(
      Line line, @Nullable Program program, String accept, Map<String, String> things)
      throws IOException {
    String path = line.path(things);
    String method = line.method().equals("CSV") ? "POST" : line.method();
    Knock knock = program == null ? knock(method, path) : as(program, method, path);
    knock.with("Accept", accept).with("If-Match", "\"1\"");
    if (!method.equals("POST") && !method.equals("PUT")) {
      return knock.reply();
    }
    return posted(knock, line, path).reply();
  }

  /** What the first clinic's callers send is about the second clinic, too. */
  private Knock posted(Knock knock, Line line, String path) {
    if (line.method().equals("CSV")) {
      return knock.with("Content-Type", "text/csv").json("treatment,nothing\n" + OF_B + ",1\n");
    }
    if (path.equals("/pages/treatments")) {
      return knock
          .with("Content-Type", "multipart/form-data; boundary=cut")
          .json(
              "--cut\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.json\"\r\n"
                  + "Content-Type: application/json\r\n\r\n"
                  + GuardedService.ofB(OF_B)
                  + "\r\n--cut--\r\n");
    }
    if (path.startsWith("/pages/") || path.endsWith("search")) {
      return knock
          .with("Content-Type", "application/x-www-form-urlencoded")
          .json(path.startsWith("/pages/") ? FORM : "");
    }
    if (path.endsWith("-summary")) {
      return knock.json("{\"resourceType\": \"Parameters\"}");
    }
    if (path.equals("/fhir")) {
      return knock.json(bundleOfB);
    }
    if (path.endsWith("/deliveries")) {
      return knock.json("{\"to\": \"hospital\"}");
    }
    if (path.startsWith("/fhir")) {
      return knock.json("{\"resourceType\": \"Patient\"}");
    }
    return knock.json(GuardedService.ofB(OF_B));
  }
}
