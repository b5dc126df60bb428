package org.intercusp.app;

import java.time.Clock;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.app.security.LoginSettings;
import org.intercusp.archive.DatabaseBackup;
import org.intercusp.audit.AuditTrail;
import org.intercusp.registry.intake.SubmissionWitness;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Who asks, and the trail of what they did; the database as a whole. */
@Configuration(proxyBeanMethods = false)
class AccessWiring {

  @Bean
  CurrentCaller currentCaller(LoginSettings login) {
    return login.isOn() ? CurrentCaller.withLogin() : CurrentCaller.withoutLogin();
  }

  @Bean
  AuditTrail auditTrail(DataSource database, CurrentCaller callers, Clock clock) {
    return new AuditTrail(database, callers, clock);
  }

  @Bean
  SubmissionWitness submissionWitness(AuditTrail trail) {
    return new SubmissionTrail(trail);
  }

  @Bean
  DatabaseBackup databaseBackup(DataSource database, AuditTrail trail, RoomSettings rooms) {
    return new DatabaseBackup(database, trail, rooms.data());
  }
}
