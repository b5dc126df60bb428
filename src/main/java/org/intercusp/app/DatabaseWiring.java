package org.intercusp.app;

import com.zaxxer.hikari.HikariDataSource;
import java.time.Duration;
import org.intercusp.archive.AwayOrBusy;
import org.intercusp.archive.FileStillThere;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** The pool of connections as everybody gets it. */
@Configuration(proxyBeanMethods = false)
class DatabaseWiring {

  /** As long as the embedded database waits for a row; common practice, no source. */
  private static final Duration PATIENCE = Duration.ofSeconds(30);

  @Bean
  static BeanPostProcessor awayOrBusy() {
    return new BeanPostProcessor() {
      @Override
      public Object postProcessAfterInitialization(Object bean, String name) {
        return bean instanceof HikariDataSource pool
            ? new AwayOrBusy(new FileStillThere(pool), PATIENCE)
            : bean;
      }
    };
  }
}
