package org.intercusp.app;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.ConsoleAppender;
import ch.qos.logback.core.joran.spi.ConsoleTarget;
import org.slf4j.LoggerFactory;
import org.springframework.context.ApplicationContextInitializer;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * Puts the service's log on standard error: standard output holds results, here where the service
 * is and the token of this start, which no log may hold. A log that a deployment configures itself
 * ({@code logging.config}) stays as it is.
 */
final class LogAside implements ApplicationContextInitializer<ConfigurableApplicationContext> {

  /** The framework's name for it. */
  private static final String CONSOLE = "CONSOLE";

  @Override
  public void initialize(ConfigurableApplicationContext context) {
    if (context.getEnvironment().getProperty("logging.config") == null
        && LoggerFactory.getILoggerFactory() instanceof LoggerContext log
        && log.getLogger(Logger.ROOT_LOGGER_NAME).getAppender(CONSOLE)
            instanceof ConsoleAppender<ILoggingEvent> console) {
      console.stop();
      console.setTarget(ConsoleTarget.SystemErr.getName());
      console.start();
    }
  }
}
