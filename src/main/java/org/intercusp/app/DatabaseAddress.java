package org.intercusp.app;

import java.util.stream.Stream;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Refuses a database that is none of those we can use. An empty address above all: for that one the
 * framework makes a database in memory, which is gone with the process.
 */
final class DatabaseAddress
    implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  private static final String SETTING = "spring.datasource.url";

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    String address = context.getEnvironment().getProperty(SETTING, "");
    if (Stream.of("jdbc:postgresql:", "jdbc:h2:").noneMatch(address::startsWith)) {
      // Not quoted, since it may hold a password.
      throw new IllegalArgumentException(
          SETTING
              + (address.isBlank() ? " is empty" : " names no database that can be used")
              + "; it is written jdbc:postgresql://HOST/NAME, or left out for the embedded one");
    }
  }
}
