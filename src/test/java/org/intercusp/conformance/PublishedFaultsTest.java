package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.management.OperatingSystemMXBean;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.hl7.fhir.utilities.http.ManagedWebAccess;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The published faults of the FHIR core in use (6.7.9), each with the test that shows it cannot be
 * reached here. Those of earlier versions that 6.7.9 has mended stand below them, since the guard
 * would stop the documents too.
 */
@Tag("steady")
class PublishedFaultsTest {

  /**
   * A published fault.
   *
   * @param id as published
   * @param what in short, with the version that mends it
   * @param tests class and method of the tests that cover it
   */
  private record Fault(String id, String what, List<String> tests) {
    @Override
    public String toString() {
      return id;
    }
  }

  private static final String HERE = "PublishedFaultsTest#";

  static List<Fault> faults() {
    return List.of(
        new Fault(
            "CVE-2026-34359",
            "credentials sent to a host whose name begins like a configured one; mended in 6.9.4",
            List.of(HERE + "theLibrariesMayNotGoToTheNetwork")),
        new Fault(
            "CVE-2026-34360",
            "a loader fetches a URL somebody submits; mended in 6.9.4",
            List.of(
                HERE + "theLibrariesMayNotGoToTheNetwork",
                HERE + "nothingThatADocumentNamesIsFetched")),
        new Fault(
            "CVE-2026-34361 (GHSA-vr79-8m62-wh98)",
            "both of these together; mended in 6.9.4",
            List.of(HERE + "nothingThatADocumentNamesIsFetched")),
        new Fault(
            "CVE-2026-55471 (GHSA-2f55-g35j-5jmf)",
            "external entities in XSLT transformations with Saxon",
            List.of(HERE + "noSaxonIsThere", "XmlAttacksTest#refusesInXml")),
        new Fault(
            "SNYK-JAVA-CAUHNHAPIFHIR-17912728, -17912729, -17912730",
            "regular expressions that take exponential time; mended with HAPI FHIR 8.10.1",
            List.of(
                HERE + "noTextTakesMoreThanItsLength",
                "GuardTest#theWorstAdmissibleDocumentStaysWithinTheBound")),
        new Fault(
            "CVE-2024-52007, CVE-2024-51132, CVE-2024-45294",
            "external entities in XML; mended in 6.4.0 and 6.3.23",
            List.of("XmlAttacksTest#refusesInXml")),
        new Fault(
            "CVE-2023-24057, CVE-2023-28465",
            "files outside the folder from a package; mended in 5.6.106",
            List.of(HERE + "nothingThatADocumentNamesIsFetched")));
  }

  @ParameterizedTest
  @MethodSource("faults")
  void isCoveredByATestThatExists(Fault fault) throws ClassNotFoundException {
    assertThat(fault.what()).isNotBlank();
    assertThat(fault.tests()).isNotEmpty();
    for (String test : fault.tests()) {
      String[] parts = test.split("#", 2);
      Class<?> type = Class.forName(getClass().getPackageName() + "." + parts[0]);
      assertThat(Arrays.stream(type.getDeclaredMethods()))
          .as(test)
          .anyMatch(method -> method.getName().equals(parts[1]));
    }
  }

  @Test
  void theLibrariesMayNotGoToTheNetwork() throws IOException {
    assertThat(Judges.SHARED).isNotNull();
    try (Listener listener = Listener.open()) {
      assertThatThrownBy(() -> ManagedWebAccess.get(List.of("web"), listener.url("/x")))
          .isInstanceOf(IOException.class);
      assertThat(listener.heard()).isZero();
    }
  }

  @Test
  void nothingThatADocumentNamesIsFetched() throws IOException {
    try (Listener listener = Listener.open()) {
      String document =
          """
          {"resourceType": "Observation",
           "meta": {"profile": ["%1$s"]},
           "extension": [{"url": "%1$s", "valueUri": "%1$s"}],
           "status": "final",
           "code": {"coding": [{"system": "%1$s", "code": "a"}]},
           "subject": {"reference": "%1$s/Patient/1"},
           "derivedFrom": [{"reference": "%1$s/DocumentReference/1"}]}
          """
              .formatted(listener.url("/package.tgz"));
      for (Format format : Format.values()) {
        Judges.SHARED.validate(written(document, format), format);
      }
      assertThat(listener.heard()).isZero();
    }
  }

  private static byte[] written(String json, Format format) {
    if (format == Format.JSON) {
      return json.getBytes(UTF_8);
    }
    return Judges.FHIR
        .newXmlParser()
        .encodeResourceToString(Judges.FHIR.newJsonParser().parseResource(json))
        .getBytes(UTF_8);
  }

  @Test
  void noSaxonIsThere() {
    assertThatThrownBy(() -> Class.forName("net.sf.saxon.TransformerFactoryImpl"))
        .isInstanceOf(ClassNotFoundException.class);
  }

  /** Texts that make careless expressions try every way of dividing them. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"id\":\"%s!\"",
        "\"issued\":\"2026-01-01T00:00:00.%s!\"",
        "\"effectiveDateTime\":\"2026-%s!\"",
        "\"implicitRules\":\"http://a/%s!\"",
        "\"valueString\":\"%s \\\\n\"",
        "\"valueQuantity\":{\"value\":1,\"system\":\"http://unitsofmeasure.org\",\"code\":\"%s\"}",
        "\"code\":{\"coding\":[{\"system\":\"urn:oid:1.%s\",\"code\":\"%s \"}]}",
        "\"language\":\"en-%s!\"",
        "\"extension\":[{\"url\":\"http://%s.example/(a+)+$\",\"valueMarkdown\":\"%s\"}]",
        "\"subject\":{\"reference\":\"Patient/%s/_history/%s!\"}",
        "\"note\":[{\"text\":\"<<<<%s\"}]"
      })
  void noTextTakesMoreThanItsLength(String member) {
    byte[] brief = observation(member, 500);
    byte[] longer = observation(member, 8_000);
    Judges.SHARED.validate(brief, Format.JSON);
    Duration least = costOfProcess(() -> Judges.SHARED.validate(brief, Format.JSON));
    Duration most = costOfProcess(() -> Judges.SHARED.validate(longer, Format.JSON));
    assertThat(most).isLessThan(least.multipliedBy(16).plusMillis(100));
  }

  /** Least of several: the judge works in threads of its own, so the whole process is counted. */
  private static Duration costOfProcess(Runnable work) {
    OperatingSystemMXBean system = ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);
    long least = Long.MAX_VALUE;
    for (int i = 0; i < 3; i++) {
      long before = system.getProcessCpuTime();
      work.run();
      least = Math.min(least, system.getProcessCpuTime() - before);
    }
    return Duration.ofNanos(least);
  }

  private static byte[] observation(String member, int length) {
    String text = member.replace("%s", "1a".repeat(length / 2));
    return ("{\"resourceType\":\"Observation\",\"status\":\"final\"," + text + "}").getBytes(UTF_8);
  }

  /** A server that only counts who calls. */
  private record Listener(HttpServer server, AtomicInteger calls) implements AutoCloseable {

    static Listener open() throws IOException {
      HttpServer server =
          HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
      AtomicInteger calls = new AtomicInteger();
      server.createContext(
          "/",
          exchange -> {
            calls.incrementAndGet();
            exchange.sendResponseHeaders(404, -1);
            exchange.close();
          });
      server.start();
      return new Listener(server, calls);
    }

    String url(String path) {
      return "http://127.0.0.1:" + server.getAddress().getPort() + path;
    }

    int heard() {
      return calls.get();
    }

    @Override
    public void close() {
      server.stop(0);
    }
  }
}
