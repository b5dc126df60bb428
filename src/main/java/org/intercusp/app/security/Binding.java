package org.intercusp.app.security;

import java.net.InetAddress;
import java.net.UnknownHostException;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.InitializingBean;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/**
 * Stops the start where the service would be reached from other machines and nobody would have to
 * log in.
 */
@Component
class Binding implements InitializingBean {

  private final LoginSettings login;
  private final Environment environment;

  Binding(LoginSettings login, Environment environment) {
    this.login = login;
    this.environment = environment;
  }

  @Override
  public void afterPropertiesSet() throws UnknownHostException {
    String own = environment.getProperty("server.address");
    mustBeLoopback("server.address", own);
    mustBeLoopback(
        "management.server.address",
        environment.getProperty("management.server.address", String.valueOf(own)));
  }

  private void mustBeLoopback(String property, @Nullable String address)
      throws UnknownHostException {
    // An empty address is every address of the machine.
    boolean loopback =
        address != null && !address.isBlank() && InetAddress.getByName(address).isLoopbackAddress();
    if (!login.isOn() && !loopback) {
      throw new IllegalArgumentException(
          property
              + " is not a loopback address and intercusp.login.issuer is not set: nobody would"
              + " have to log in");
    }
  }
}
