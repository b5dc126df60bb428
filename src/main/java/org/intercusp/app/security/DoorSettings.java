package org.intercusp.app.security;

import java.util.List;
import java.util.Locale;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Who may knock at the HTTP doors.
 *
 * @param hosts names besides the loopback ones that a request's {@code Host} may carry, without
 *     port
 * @param requireToken whether every caller must know the token that is drawn at each start, for
 *     machines that several people share
 */
@ConfigurationProperties("intercusp.doors")
public record DoorSettings(@DefaultValue List<String> hosts, boolean requireToken) {

  private static final List<String> LOOPBACK = List.of("localhost", "127.0.0.1", "[::1]");

  public DoorSettings {
    hosts = List.copyOf(hosts);
  }

  /** Whether the value of a {@code Host} header (name with or without port) is one of ours. */
  boolean knowsHost(String header) {
    String name = header.replaceFirst(":\\d{1,5}$", "").toLowerCase(Locale.ROOT);
    return LOOPBACK.contains(name) || hosts.stream().anyMatch(name::equalsIgnoreCase);
  }
}
