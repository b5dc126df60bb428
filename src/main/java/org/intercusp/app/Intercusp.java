package org.intercusp.app;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The way in: one jar whose words on the command line choose the door. */
@SpringBootApplication(scanBasePackages = "org.intercusp")
public class Intercusp {

  /** Starts the service. */
  public static void main(String[] args) {
    SpringApplication.run(Intercusp.class, args);
  }
}
