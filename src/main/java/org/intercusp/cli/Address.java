package org.intercusp.cli;

import java.net.URI;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.wire.Target;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.TypeConversionException;

/**
 * Where a command sends to or fetches from.
 *
 * @param scope what the consent must cover
 */
record Address(String name, Target target, ConsentScope scope) {

  /** A configured recipient's name, or a URL, which only the command line takes. */
  static Address of(String nameOrUrl, @Nullable ConsentScope scope, Recipients recipients) {
    if (nameOrUrl.startsWith("http://") || nameOrUrl.startsWith("https://")) {
      Target target = Target.of(url(nameOrUrl));
      return new Address(nameOrUrl, target, scope == null ? ConsentScope.HOSPITAL : scope);
    }
    Recipient recipient =
        recipients
            .named(nameOrUrl)
            .orElseThrow(
                () -> new IllegalArgumentException("there is no recipient named " + nameOrUrl));
    return new Address(nameOrUrl, recipient.target(), recipient.scope());
  }

  private static URI url(String text) {
    try {
      return Words.address(text);
    } catch (TypeConversionException e) {
      throw new IllegalArgumentException(e.getMessage(), e);
    }
  }
}
