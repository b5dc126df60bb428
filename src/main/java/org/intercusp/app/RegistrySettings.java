package org.intercusp.app;

import java.nio.file.Path;
import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.privacy.Reduction;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.unit.DataSize;

/**
 * Settings of the registry.
 *
 * @param keyFile keys of the pseudonyms, readable by its owner alone; in the data directory where
 *     absent
 * @param dateMonths 1 keeps the month of a date, 3 its quarter, 12 its year
 * @param ageMonths 1 keeps the age in months, 6 in half years, 12 in years
 * @param largestSubmission of one POST
 */
@ConfigurationProperties("intercusp.registry")
record RegistrySettings(
    @Nullable Path keyFile,
    @DefaultValue("1") int dateMonths,
    @DefaultValue("1") int ageMonths,
    @DefaultValue("256MB") DataSize largestSubmission) {

  RegistrySettings {
    if (largestSubmission.toBytes() < 1) {
      throw new IllegalArgumentException("largest-submission is more than nothing");
    }
  }

  RegistryPlace place(Path data) {
    Path keys = keyFile == null ? data.resolve("pseudonyms.keys") : keyFile;
    return new RegistryPlace(data.resolve("registry"), keys, new Reduction(dateMonths, ageMonths));
  }
}
