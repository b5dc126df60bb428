package org.intercusp.app;

import org.intercusp.app.security.DoorSettings;
import org.intercusp.app.security.StartToken;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/** Says where the service is, once it is; on a shared machine with the token of this start. */
@Component
class Announcement {

  private final DoorSettings doors;
  private final StartToken token;
  private final Environment environment;

  Announcement(DoorSettings doors, StartToken token, Environment environment) {
    this.doors = doors;
    this.token = token;
    this.environment = environment;
  }

  @EventListener(ApplicationReadyEvent.class)
  void ready() {
    String port = environment.getProperty("local.server.port", "8080");
    // Standard output and never the log: the token is for who started the service.
    System.out.println(
        "Intercusp at http://127.0.0.1:"
            + port
            + "/"
            + (doors.requireToken() ? token.query() : ""));
  }
}
