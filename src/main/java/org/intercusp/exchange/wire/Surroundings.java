package org.intercusp.exchange.wire;

import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;

/**
 * Keeps a name that somebody else's name server answers for from leading to this machine. A host
 * configured as {@code localhost} or as an address is what it says. The connection itself asks for
 * the name again; the platform keeps an answer for half a minute, so that both see the same.
 */
final class Surroundings {

  private final Names names;

  Surroundings() {
    this(Surroundings::resolved);
  }

  Surroundings(Function<String, List<InetAddress>> names) {
    this.names = new Names(names);
  }

  /** Refuses a URL whose host leads to a place that was not configured. */
  void check(Target target, URI url, Deadline deadline) throws Trouble {
    String host = url.getHost().toLowerCase(Locale.ROOT);
    if (target.vicinity() == Vicinity.THIS_MACHINE_TOO || isPlain(host)) {
      return;
    }
    try {
      List<InetAddress> found =
          names.of(host).get(deadline.left().toMillis(), TimeUnit.MILLISECONDS);
      if (found.stream().anyMatch(Surroundings::isNear)) {
        throw new Trouble(
            Difficulty.ELSEWHERE,
            host + " leads to this machine or its link, which is not configured");
      }
    } catch (TimeoutException e) {
      throw new Trouble(Difficulty.SLOW, "The name " + host + " was not found in time");
    } catch (ExecutionException e) {
      throw new Trouble(Difficulty.DOWN, "The name " + host + " was not found");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Trouble(Difficulty.SLOW, "Interrupted while looking for " + host);
    }
  }

  private static boolean isPlain(String host) {
    return host.equals("localhost") || host.startsWith("[") || host.matches("[0-9.]+");
  }

  private static boolean isNear(InetAddress address) {
    return address.isLoopbackAddress()
        || address.isLinkLocalAddress()
        || address.isAnyLocalAddress()
        || address.isMulticastAddress();
  }

  private static List<InetAddress> resolved(String host) {
    try {
      return List.of(InetAddress.getAllByName(host));
    } catch (UnknownHostException e) {
      // Where a proxy stands between, only it knows the name; without one connecting fails.
      return List.of();
    }
  }
}
