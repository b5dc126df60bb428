package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.wire.ClientSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.boot.test.context.runner.ApplicationContextRunner;

/** How deliveries are worked off and what a call may take, as they are configured. */
class DeliverySettingsTest {

  @EnableConfigurationProperties({DeliverySettings.class, ClientSettings.class})
  static class Bound {}

  private final ApplicationContextRunner context =
      new ApplicationContextRunner().withUserConfiguration(Bound.class);

  @Test
  void whatIsNotConfiguredIsWhatIsUsual() {
    context.run(
        bound -> {
          assertThat(bound.getBean(DeliverySettings.class)).isEqualTo(DeliverySettings.DEFAULT);
          assertThat(bound.getBean(ClientSettings.class)).isEqualTo(ClientSettings.DEFAULT);
        });
  }

  @Test
  void oneSettingLeavesTheOthers() {
    context
        .withPropertyValues("intercusp.deliveries.longest-time=2d", "intercusp.client.tries=2")
        .run(
            bound -> {
              DeliverySettings settings = bound.getBean(DeliverySettings.class);
              assertThat(settings.longestTime()).isEqualTo(Duration.ofDays(2));
              assertThat(settings.workers()).isEqualTo(DeliverySettings.DEFAULT.workers());
              assertThat(bound.getBean(ClientSettings.class).tries()).isEqualTo(2);
            });
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "intercusp.deliveries.workers=0",
        "intercusp.deliveries.lease=soon",
        "intercusp.client.deadline=-1s",
        "intercusp.client.answer-bytes=lots"
      })
  void aWrongOneStopsTheStartWithItsName(String wrong) {
    context
        .withPropertyValues(wrong)
        .run(
            bound -> {
              assertThat(bound).hasFailed();
              String[] words = wrong.split("[.=]", 4);
              assertThat(bound.getStartupFailure())
                  .hasStackTraceContaining(words[1])
                  .hasStackTraceContaining(words[2]);
            });
  }
}
