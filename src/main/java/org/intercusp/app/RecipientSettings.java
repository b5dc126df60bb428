package org.intercusp.app;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.intercusp.exchange.Recipient;
import org.intercusp.exchange.Recipients;
import org.intercusp.exchange.Target;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Recipients by name.
 *
 * @param recipients each with the base URL of its records server
 */
@ConfigurationProperties("intercusp")
record RecipientSettings(@DefaultValue Map<String, Entry> recipients) {

  /**
   * One recipient.
   *
   * @param title what people call it; its name where absent
   * @param url FHIR base URL
   * @param scope hospital, referrer, laboratory or registry
   * @param tokenFile a file with a bearer token, where the server wants one
   */
  record Entry(@Nullable String title, URI url, String scope, @Nullable Path tokenFile) {

    Recipient named(String name) {
      ConsentScope covered = ConsentScope.valueOf(scope.toUpperCase(Locale.ROOT));
      return new Recipient(name, title == null ? name : title, new Target(url, token()), covered);
    }

    private @Nullable String token() {
      try {
        return tokenFile == null ? null : Files.readString(tokenFile).strip();
      } catch (IOException e) {
        throw new IllegalArgumentException("token-file cannot be read: " + tokenFile, e);
      }
    }
  }

  Recipients named() {
    return new Recipients(
        recipients.entrySet().stream()
            .map(entry -> entry.getValue().named(entry.getKey()))
            .toList());
  }
}
