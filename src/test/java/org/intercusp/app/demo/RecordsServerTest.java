package org.intercusp.app.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The parent's side of the pact, with small children that keep it or break it. */
class RecordsServerTest {

  private static final Duration LONG = Duration.ofSeconds(30);

  @TempDir Path folder;

  @Test
  void waitsForTheAnnouncementAndEndsTheChildByClosingItsInput() throws IOException {
    Path output = folder.resolve("made/for/it/server.log");
    RecordsServer server = RecordsServer.start(child("announce"), output, LONG);
    ProcessHandle process = ProcessHandle.of(server.pid().orElseThrow()).orElseThrow();
    assertThat(server.baseUrl()).isEqualTo(URI.create("http://127.0.0.1:1/fhir"));
    assertThat(server.startUp()).isPositive();
    assertThat(process.isAlive()).isTrue();

    server.close();
    server.close();

    assertThat(process.isAlive()).isFalse();
    assertThat(output).content().contains("input ended");
  }

  @Test
  void endsAChildThatDoesNotHeedTheEndOfItsInput() throws IOException {
    RecordsServer server =
        RecordsServer.start(child("announce-and-stay"), folder.resolve("server.log"), LONG);
    ProcessHandle process = ProcessHandle.of(server.pid().orElseThrow()).orElseThrow();

    server.close();

    assertThat(process.onExit().join().isAlive()).isFalse();
  }

  @Test
  void refusesAChildThatDiesAndShowsItsLastWords() {
    assertThatThrownBy(() -> RecordsServer.start(child("die"), folder.resolve("server.log"), LONG))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("exit code 3")
        .hasMessageContaining("no room for me");
  }

  @Test
  void refusesAndEndsAChildThatStaysSilentTooLong() {
    Path output = folder.resolve("server.log");
    List<String> command = child("stay-silent");

    assertThatThrownBy(() -> RecordsServer.start(command, output, Duration.ofMillis(200)))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("not ready in time");

    assertThat(ProcessHandle.current().children().filter(ProcessHandle::isAlive).toList())
        .allSatisfy(left -> assertThat(left.onExit()).succeedsWithin(Duration.ofSeconds(10)));
  }

  @Test
  void leavesAServerAloneThatItDidNotStart() {
    RecordsServer server = RecordsServer.at(URI.create("http://127.0.0.1:9/fhir"));

    server.close();

    assertThat(server.pid()).isEmpty();
    assertThat(server.baseUrl()).hasToString("http://127.0.0.1:9/fhir");
  }

  @Test
  void saysWhatToDoWhereTheJarIsMissing() {
    RecordsServerJar jar = new RecordsServerJar(folder.resolve("none.jar"));

    assertThatThrownBy(() -> jar.start(RecordsServerJar.Temper.PLAIN, folder.resolve("server.log")))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("none.jar")
        .hasMessageContaining("mvn verify");
  }

  private static List<String> child(String manner) {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-cp",
        System.getProperty("java.class.path"),
        Child.class.getName(),
        manner);
  }

  /** A child process with manners. */
  static final class Child {

    private Child() {}

    public static void main(String[] arguments) throws Exception {
      switch (arguments[0]) {
        case "announce" -> {
          System.out.println("records server ready at http://127.0.0.1:1/fhir");
          System.in.readAllBytes();
          System.out.println("input ended");
        }
        case "announce-and-stay" -> {
          System.out.println("records server ready at http://127.0.0.1:1/fhir");
          Thread.sleep(Long.MAX_VALUE);
        }
        case "die" -> {
          System.out.println("no room for me");
          System.exit(3);
        }
        default -> Thread.sleep(Long.MAX_VALUE);
      }
    }
  }
}
