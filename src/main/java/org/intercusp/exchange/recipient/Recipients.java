package org.intercusp.exchange.recipient;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The recipients a deployment has configured, by name. */
public final class Recipients {

  private final Map<String, Recipient> byName = new TreeMap<>();

  public Recipients(Collection<Recipient> recipients) {
    recipients.forEach(recipient -> byName.put(recipient.name(), recipient));
  }

  /** All, in the order of their names. */
  public List<Recipient> all() {
    return List.copyOf(byName.values());
  }

  public Optional<Recipient> named(String name) {
    return Optional.ofNullable(byName.get(name));
  }
}
