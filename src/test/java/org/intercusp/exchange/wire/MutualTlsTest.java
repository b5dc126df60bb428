package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsParameters;
import com.sun.net.httpserver.HttpsServer;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.records.RecordsClient;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.ssl.SslBundle;
import org.springframework.boot.ssl.jks.JksSslStoreBundle;
import org.springframework.boot.ssl.jks.JksSslStoreDetails;

/** A TLS server of the platform that wants our certificate; certificates by keytool. */
class MutualTlsTest {

  private static final String PASSWORD = "of-a-test";
  private static final AtomicInteger ANSWERED = new AtomicInteger();

  @TempDir static Path folder;
  private static HttpsServer server;
  private final RecordsClient client = Clients.within(Duration.ofSeconds(10));

  @BeforeAll
  static void begin() throws Exception {
    for (String who : List.of("server", "clinic", "stranger")) {
      keytool(
          "-genkeypair",
          "-keystore",
          store(who),
          "-alias",
          who,
          "-dname",
          "CN=" + who,
          "-keyalg",
          "EC",
          "-groupname",
          "secp256r1",
          "-validity",
          "2",
          "-ext",
          "SAN=IP:127.0.0.1");
      keytool("-exportcert", "-keystore", store(who), "-alias", who, "-file", store(who) + ".crt");
    }
    trusts("of-clients", "server");
    trusts("of-server", "clinic");
    server = HttpsServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    SSLContext tls = context("server", "of-server");
    server.setHttpsConfigurator(
        new HttpsConfigurator(tls) {
          @Override
          public void configure(HttpsParameters parameters) {
            SSLParameters wanted = tls.getDefaultSSLParameters();
            wanted.setNeedClientAuth(true);
            parameters.setSSLParameters(wanted);
          }
        });
    server.createContext(
        "/",
        exchange -> {
          ANSWERED.incrementAndGet();
          byte[] body =
              ("{\"resourceType\":\"CapabilityStatement\",\"status\":\"active\","
                      + "\"kind\":\"instance\",\"fhirVersion\":\"4.0.1\",\"format\":[\"json\"]}")
                  .getBytes(StandardCharsets.UTF_8);
          exchange.getResponseHeaders().set("Content-Type", FaultyServer.FHIR);
          exchange.sendResponseHeaders(200, body.length);
          exchange.getResponseBody().write(body);
          exchange.close();
        });
    server.setExecutor(Executors.newCachedThreadPool());
    server.start();
  }

  @AfterAll
  static void end() {
    server.stop(0);
  }

  @Test
  void ourCertificateIsTakenAndNoOther() {
    SSLContext ours = context("clinic", "of-clients");
    SSLContext none = context(null, "of-clients");
    SSLContext wrong = context("stranger", "of-clients");
    SSLContext distrusting = context("clinic", "of-server");

    assertThat(client.reach(target(ours)).words()).isEqualTo("FHIR 4.0.1");
    int answered = ANSWERED.get();
    assertThat(answered).isPositive();
    assertThat(client.reach(target(none)).reached()).isFalse();
    assertThat(client.reach(target(wrong)).reached()).isFalse();
    assertThat(client.reach(target(distrusting)).words()).contains("certificates");
    assertThat(client.reach(target(null)).words()).contains("certificates");
    assertThat(ANSWERED.get()).isEqualTo(answered);
    assertThat(client.reach(target(ours)).reached()).isTrue();
  }

  @Test
  void certificatesAreNotForPlainHttp() {
    SSLContext ours = context("clinic", "of-clients");
    assertThatThrownBy(
            () ->
                new Target(
                    URI.create("http://127.0.0.1/fhir"),
                    new Authorization.None(),
                    ours,
                    Vicinity.ELSEWHERE_ONLY))
        .hasMessageContaining("https only");
  }

  private static Target target(SSLContext tls) {
    URI url = URI.create("https://127.0.0.1:" + server.getAddress().getPort() + "/fhir");
    return new Target(url, new Authorization.None(), tls, Vicinity.ELSEWHERE_ONLY);
  }

  private static SSLContext context(String own, String trusted) {
    JksSslStoreDetails key = own == null ? null : details(own);
    return SslBundle.of(new JksSslStoreBundle(key, details(trusted))).createSslContext();
  }

  private static JksSslStoreDetails details(String name) {
    return new JksSslStoreDetails("PKCS12", null, "file:" + store(name), PASSWORD);
  }

  private static String store(String name) {
    return folder.resolve(name + ".p12").toAbsolutePath().toString();
  }

  private static void trusts(String name, String whom) throws Exception {
    keytool(
        "-importcert",
        "-noprompt",
        "-keystore",
        store(name),
        "-alias",
        whom,
        "-file",
        store(whom) + ".crt");
  }

  private static void keytool(String... arguments) throws Exception {
    List<String> command =
        new java.util.ArrayList<>(
            List.of(Path.of(System.getProperty("java.home"), "bin", "keytool").toString()));
    command.addAll(List.of(arguments));
    command.addAll(List.of("-storetype", "PKCS12", "-storepass", PASSWORD));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isZero();
  }
}
