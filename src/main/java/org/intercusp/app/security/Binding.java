package org.intercusp.app.security;

import java.net.InetAddress;
import java.net.UnknownHostException;
import org.springframework.beans.factory.config.BeanFactoryPostProcessor;
import org.springframework.beans.factory.config.ConfigurableListableBeanFactory;
import org.springframework.boot.context.properties.bind.Binder;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;

/**
 * Stops the start, before anything else is made, where the service would be reached from other
 * machines and nobody would have to log in.
 */
@Component
class Binding implements BeanFactoryPostProcessor {

  private final Environment environment;

  Binding(Environment environment) {
    this.environment = environment;
  }

  @Override
  public void postProcessBeanFactory(ConfigurableListableBeanFactory beans) {
    check();
  }

  void check() {
    Binder binder = Binder.get(environment);
    boolean login = binder.bind("intercusp.login.issuer", String.class).isBound();
    String own = binder.bind("server.address", String.class).orElse("");
    String operators = binder.bind("management.server.address", String.class).orElse(own);
    mustBeLoopback("server.address", own, login);
    mustBeLoopback("management.server.address", operators, login);
  }

  private static void mustBeLoopback(String property, String address, boolean login) {
    if (!login && !isLoopback(address)) {
      throw new IllegalStateException(
          property
              + " is not a loopback address and intercusp.login.issuer is not set: nobody would"
              + " have to log in");
    }
  }

  // An empty address is every address of the machine.
  private static boolean isLoopback(String address) {
    try {
      return !address.isBlank() && InetAddress.getByName(address).isLoopbackAddress();
    } catch (UnknownHostException e) {
      return false;
    }
  }
}
