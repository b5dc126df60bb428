package org.intercusp.app;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.Map;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Settings of the rooms without a database.
 *
 * @param data the data directory, readable by its owner alone: the embedded database, the
 *     registry's files and keys
 * @param limits limits of common practice that the clinic sets for itself, by name, inside their
 *     safe bounds
 * @param canonicalBase base URL of the profiles, codes and extensions, without a slash at its end;
 *     set it before the first treatment is stored: what was filed, delivered or reported under
 *     another base stays under that
 */
@ConfigurationProperties("intercusp")
record RoomSettings(
    Path data,
    @DefaultValue Map<String, BigDecimal> limits,
    @DefaultValue("https://intercusp.example/fhir") String canonicalBase) {

  RoomSettings {
    // What binds the settings makes nothing of an empty path.
    if (data == null) {
      throw new IllegalArgumentException("data is empty; it names a directory");
    }
  }
}
