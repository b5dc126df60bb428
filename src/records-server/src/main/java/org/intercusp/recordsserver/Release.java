package org.intercusp.recordsserver;

import ca.uhn.fhir.jpa.config.r4.JpaR4Config;
import ca.uhn.fhir.jpa.config.r4b.JpaR4BConfig;
import ca.uhn.fhir.jpa.config.r5.JpaR5Config;

/** Which release of FHIR the server speaks: one for as long as it runs. */
enum Release {
  R4("4.0", JpaR4Config.class),
  R4B("4.3", JpaR4BConfig.class),
  R5("5.0", JpaR5Config.class);

  private final String number;
  private final Class<?> parts;

  Release(String number, Class<?> parts) {
    this.number = number;
    this.parts = parts;
  }

  static Release of(String number) {
    for (Release release : values()) {
      if (release.number.equals(number)) {
        return release;
      }
    }
    throw new IllegalArgumentException("records.release is 4.0, 4.3 or 5.0, not " + number);
  }

  /** HAPI's configuration of what is another in each release: model, storage of each type. */
  Class<?> parts() {
    return parts;
  }
}
