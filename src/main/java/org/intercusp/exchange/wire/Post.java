package org.intercusp.exchange.wire;

import java.net.http.HttpRequest;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/** Sends a request with what its server wants to see, and once more where a token had ended. */
final class Post {

  private static final int UNAUTHORIZED = 401;

  private final Wire wire;
  private final TokenDesk desk;

  Post(Wire wire, TokenDesk desk) {
    this.wire = wire;
    this.desk = desk;
  }

  /**
   * The answer.
   *
   * @param still asked after a token was fetched, which takes time, and before anything is sent
   */
  Answer send(Target target, HttpRequest.Builder request, Deadline deadline, BooleanSupplier still)
      throws Trouble {
    Optional<String> token = desk.token(target, deadline);
    Answer answer = sent(target, request, token, deadline, still);
    if (answer.status() != UNAUTHORIZED || token.isEmpty()) {
      return answer;
    }
    Optional<String> fresh = desk.instead(target, token.get(), deadline);
    return fresh.isEmpty() ? answer : sent(target, request, fresh, deadline, still);
  }

  private Answer sent(
      Target target,
      HttpRequest.Builder request,
      Optional<String> token,
      Deadline deadline,
      BooleanSupplier still)
      throws Trouble {
    if (!still.getAsBoolean()) {
      throw new Trouble(Difficulty.CONTENDED, "Somebody else writes by now", 409, "", null);
    }
    token.ifPresent(one -> request.setHeader("Authorization", "Bearer " + one));
    return wire.send(target, request.build(), deadline);
  }
}
