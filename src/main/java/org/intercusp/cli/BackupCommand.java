package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.archive.BackupFile;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Asks a running service for its database. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    description =
        "saves the embedded database of a running service in a file; the registry's files and keys"
            + " in the data directory are plain files to be copied beside it")
@Component
final class BackupCommand implements Callable<Integer> {

  @Option(names = "--to", required = true, paramLabel = "FILE", description = "a new file")
  Path to = Path.of("");

  @Option(
      names = "--service",
      paramLabel = "URL",
      defaultValue = "http://127.0.0.1:8080",
      description = "the service; ${DEFAULT-VALUE} where not given")
  URI service = URI.create("http://127.0.0.1:8080");

  @Option(
      names = "--token-file",
      paramLabel = "FILE",
      description = "an access token for all clinics, where people log in")
  @Nullable Path tokenFile;

  private final Console console;

  BackupCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InterruptedException {
    // Before the service is asked to write its whole database.
    Optional<String> obstacle = new NewFile(to).obstacle();
    if (obstacle.isPresent()) {
      console.say("No backup: " + obstacle.get());
      return ExitCode.UNREADABLE.code();
    }
    if (tokenFile != null && !Files.isReadable(tokenFile)) {
      console.say("No backup: " + tokenFile + " cannot be read");
      return ExitCode.UNREADABLE.code();
    }
    try {
      HttpResponse<InputStream> answer =
          HttpClient.newBuilder()
              .connectTimeout(Duration.ofSeconds(10))
              .build()
              .send(request(), HttpResponse.BodyHandlers.ofInputStream());
      try (InputStream body = answer.body()) {
        if (answer.statusCode() != 200) {
          console.say("No backup: the service answered " + answer.statusCode());
          return ExitCode.NOT_DELIVERED.code();
        }
        BackupFile.keep(body, to);
      }
      console.result("%s: %,d bytes".formatted(to, Files.size(to)));
      return ExitCode.CLEAN.code();
    } catch (IOException e) {
      console.say("No backup from " + service + ": " + Words.of(e));
      return Words.code(e, ExitCode.NOT_DELIVERED).code();
    }
  }

  private HttpRequest request() throws IOException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(service.resolve("/backup"))
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.noBody());
    if (tokenFile != null) {
      request.header("Authorization", "Bearer " + Files.readString(tokenFile).strip());
    }
    return request.build();
  }
}
