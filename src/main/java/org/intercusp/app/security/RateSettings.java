package org.intercusp.app.security;

import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.unit.DataSize;

/**
 * How often, in requests a minute, and how much. The defaults are common practice, no source.
 *
 * @param caller each caller with a login or token
 * @param nobody each address without one
 * @param address each address, all requests from there that do not show a session, or a token that
 *     was good before
 * @param local all together, where nobody logs in
 * @param body the largest body of a request
 * @param upload the largest body of many records at once, below {@code /registry} and at {@code
 *     /import}
 */
@ConfigurationProperties("intercusp.rates")
record RateSettings(
    @DefaultValue("1200") int caller,
    @DefaultValue("120") int nobody,
    @DefaultValue("6000") int address,
    @DefaultValue("600000") int local,
    @DefaultValue("32MB") DataSize body,
    @DefaultValue("2GB") DataSize upload) {

  RateSettings {
    if (Math.min(Math.min(caller, nobody), Math.min(address, local)) < 1) {
      throw new IllegalArgumentException("intercusp.rates are requests a minute, 1 or more");
    }
  }
}
