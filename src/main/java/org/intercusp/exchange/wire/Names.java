package org.intercusp.exchange.wire;

import java.net.InetAddress;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;
import java.util.concurrent.Executor;
import java.util.concurrent.Executors;
import java.util.function.Function;

/**
 * Looks hosts up, each in a thread of its own: a name server that does not answer for one host must
 * not delay another. A host is looked up once at a time, and whoever asks meanwhile gets the same
 * answer, so that one host never takes more than one thread.
 */
final class Names {

  private final Function<String, List<InetAddress>> source;
  private final ConcurrentMap<String, CompletableFuture<List<InetAddress>>> underWay =
      new ConcurrentHashMap<>();
  private final Executor threads = Executors.newCachedThreadPool(Daemons.named("name-look-up"));

  Names(Function<String, List<InetAddress>> source) {
    this.source = source;
  }

  CompletableFuture<List<InetAddress>> of(String host) {
    CompletableFuture<List<InetAddress>> fresh = new CompletableFuture<>();
    CompletableFuture<List<InetAddress>> there = underWay.putIfAbsent(host, fresh);
    if (there != null) {
      return there;
    }
    try {
      threads.execute(() -> lookUp(host, fresh));
    } catch (RuntimeException | Error e) {
      // No thread to be had: the next who asks tries anew.
      underWay.remove(host, fresh);
      fresh.completeExceptionally(e);
    }
    return fresh;
  }

  private void lookUp(String host, CompletableFuture<List<InetAddress>> answer) {
    try {
      List<InetAddress> found = source.apply(host);
      underWay.remove(host, answer);
      answer.complete(found);
    } catch (RuntimeException | Error e) {
      underWay.remove(host, answer);
      answer.completeExceptionally(e);
    }
  }
}
