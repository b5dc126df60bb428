package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Collection;
import java.util.Map;
import org.intercusp.app.SettingsReference.Setting;
import org.junit.jupiter.api.Test;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/** The reference of the settings says what each means, and is the one that is shipped. */
class SettingsReferenceTest {

  /**
   * A record with a gap.
   *
   * @param told how long it is told, in {@code seconds}
   * @param inside what it holds
   */
  @ConfigurationProperties("sample")
  record Sample(@DefaultValue("5s") Duration told, Map<String, Inside> inside) {}

  /** Somebody forgot a word here. */
  record Inside(int forgottenOne) {}

  @Test
  void everySettingSaysWhatItMeans() {
    Collection<Setting> all = SettingsReference.all();
    assertThat(SettingsReference.undescribed(all)).isEmpty();
    assertThat(all.stream().map(Setting::key))
        .hasSizeGreaterThan(50)
        .contains(
            "intercusp.data",
            "intercusp.retention.years",
            "intercusp.recipients.NAME.backend.client-id",
            "intercusp.login.client.secret-file",
            "intercusp.limits.NAME");
  }

  @Test
  void theShippedPageIsTheNewest() {
    assertThat(SettingsReference.kept(WriteSettings.FILE))
        .as("run org.intercusp.app.WriteSettings, read the difference, commit it")
        .isEqualTo(SettingsReference.text(SettingsReference.all()));
  }

  @Test
  void aSettingWithoutWordsIsFound() {
    Collection<Setting> sample = SettingsReference.of(Sample.class, Path.of("src/test/java"));
    assertThat(SettingsReference.undescribed(sample))
        .containsExactly("sample.inside.NAME.forgotten-one");
    assertThat(sample)
        .contains(
            new Setting(
                "sample.told", "duration, as 30s", "5s", "how long it is told, in `seconds`"));
  }
}
