package org.intercusp.exchange;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.exchange.Schedule.Step;

/**
 * What many would write: posts each version's Bundle, and posts it again after any failure, some
 * times. It meets the same schedules, to show what they do.
 */
final class NaiveSender {

  private static final int TRIES = 6;

  private final HttpClient http = HttpClient.newHttpClient();
  private final FaultyServer door = new FaultyServer(null);

  /** Lets the schedule happen to it; what the server's history then says. */
  Findings run(Schedule schedule) throws InterruptedException {
    Hospital hospital =
        new Hospital(
            schedule,
            TwoInstances.deadline(),
            who -> {
              throw new IllegalStateException("Nobody is killed here");
            });
    door.always(one -> true, (one, real) -> hospital.answer(one));
    List<Thread> loops = new ArrayList<>();
    for (Step step : schedule.steps()) {
      if (step instanceof Step.Submit submit) {
        Thread loop = new Thread(() -> send(submit));
        loop.start();
        loops.add(loop);
      } else if (step instanceof Step.Pause pause) {
        Thread.sleep(pause.length().toMillis());
      } else if (step instanceof Step.Outage outage) {
        hospital.down(outage.length());
      }
    }
    for (Thread loop : loops) {
      loop.join();
    }
    hospital.calm();
    Findings found =
        new Findings(
            Findings.duplicates(hospital.records()),
            List.of(),
            Findings.lost(schedule, door.target()),
            List.of());
    door.close();
    return found;
  }

  private void send(Step.Submit submit) {
    String bundle = Clients.R4.newJsonParser().encodeResourceToString(bundle(submit));
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(door.baseUrl().toString()))
            .header("Content-Type", FaultyServer.FHIR)
            .timeout(TwoInstances.deadline())
            .POST(HttpRequest.BodyPublishers.ofString(bundle))
            .build();
    for (int tried = 0; tried < TRIES; tried++) {
      try {
        if (http.send(request, HttpResponse.BodyHandlers.discarding()).statusCode() < 300) {
          return;
        }
        Thread.sleep(50);
      } catch (IOException e) {
        continue;
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
    }
  }

  private static org.hl7.fhir.r4.model.Bundle bundle(Step.Submit submit) {
    return Parcels.bundle(submit.file());
  }
}
